"""Write an empty shop folder, its files commented."""

import argparse
import sys
from pathlib import Path


def run(arguments: list[str]) -> int:
    """Write the folder and say what to do next."""
    parser = argparse.ArgumentParser(prog="strawline init", description=__doc__)
    parser.add_argument("folder", type=Path, help="a folder that is new or empty")
    asked = parser.parse_args(arguments)
    from server.work.init_folder import FolderInUse, init_folder

    try:
        written = init_folder(asked.folder)
    except FolderInUse as refused:
        print(refused, file=sys.stderr)
        return 2
    print(f"{len(written)} files and folders written; fill them in, then: strawline load {asked.folder}")
    return 0
