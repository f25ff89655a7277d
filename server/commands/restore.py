"""Restores a backup into an empty folder, as a copy that takes no entries until `strawline continue`."""

import argparse
import sys
from pathlib import Path

STOPPED = "The half that was copied is taken away. The backup is as it was."


def run(arguments: list[str]) -> int:
    """Compare the backup with what it says of itself, copy it, and say what comes next."""
    asked = _asked(arguments)
    from server.commands._telling import telling
    from server.upkeep.manifest import BackupDamaged
    from server.upkeep.restore import FolderNotEmpty, restore

    try:
        with telling() as say:
            manifest = restore(asked.backup.resolve(), asked.into.resolve(), say)
    except (BackupDamaged, FolderNotEmpty, OSError) as slip:
        print(slip, file=sys.stderr)
        return 2
    print(f"{asked.into}: {manifest.lines} lines as of {manifest.made}, root {manifest.root}")
    print(
        "It takes no entries yet, and nobody can sign in. Find the newest checkpoint known outside (on a frame "
        f"card, with a customer), and run: strawline continue --data {asked.into} --by NAME --checkpoint FILE"
    )
    _warn_of_database(asked.into)
    return 0


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline restore", description=__doc__)
    parser.add_argument("backup", type=Path, help="one backup, a folder on the shelf")
    parser.add_argument("into", type=Path, help="a folder that is new or empty; it becomes the data folder")
    return parser.parse_args(arguments)


def _warn_of_database(folder: Path) -> None:
    from server.settings import BadSetting, read_settings

    try:
        elsewhere = read_settings(folder.resolve(), {}).database
    except BadSetting as bad:
        print(bad)
        return
    if elsewhere:
        print(f"strawline.toml there names another database, {elsewhere}: take that line out to use what was restored")
