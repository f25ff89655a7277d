"""Load a shop folder into a data folder; loaded again, it changes nothing."""

import argparse
import sys
from pathlib import Path


def run(arguments: list[str]) -> int:
    """Read the folder whole, then tell the record everything in it."""
    asked = _asked(arguments)
    from server.commands._writing import writing
    from server.record.book_of_lines import now_ms
    from server.record.files import Files
    from server.record.troubles import RecordTrouble
    from server.settings import BadSetting, read_settings
    from server.work.folder_files import load_folder_files, read_folder_files
    from server.work.load_folder import load_folder
    from server.work.shop_folder import FolderUnreadable, read_shop_folder

    try:
        folder, found = read_shop_folder(asked.folder), read_folder_files(asked.folder)
        settings = read_settings(asked.data.resolve())
        with writing(settings) as record:
            loaded = load_folder(record, folder, now_ms(), _say)
            kept = load_folder_files(record, Files(settings.data_folder), found, now_ms())
    except (FolderUnreadable, BadSetting, RecordTrouble) as trouble:
        print(trouble, file=sys.stderr)
        return 2
    print(f"{loaded.told} lines read from {asked.folder}, {loaded.added} of them new to the record in {asked.data}")
    for number in loaded.left_out:
        print(
            f"{number}: the details were removed at the customer's request; the folder still tells them, and they were "
            "not taken again. Take them out of the folder; somebody else gets a number of their own."
        )
    if kept:
        print(f"{kept} files kept under their SHA-256")
    return 0


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline load", description=__doc__)
    parser.add_argument("folder", type=Path, help="the shop folder; `strawline init FOLDER` writes an empty one")
    parser.add_argument("--data", type=Path, default=Path("strawline-data"), help="the data folder")
    return parser.parse_args(arguments)


def _say(done: int, of: int) -> None:
    if sys.stderr.isatty():
        end = "\n" if done == of else ""
        print(f"\r\x1b[K{done} of {of} lines", end=end, file=sys.stderr, flush=True)
