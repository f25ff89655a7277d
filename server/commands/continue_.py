"""Lets a restored copy go on as the record, once it is told the last checkpoint known outside."""

import argparse
import sys
from pathlib import Path


def run(arguments: list[str]) -> int:
    """Check the copy against what is known outside, let it go on, and print the checkpoint it signs."""
    asked = _asked(arguments)
    from server.record.book_of_lines import now_ms
    from server.record.record_check import CannotCheck
    from server.record.troubles import RecordTrouble
    from server.settings import BadSetting, read_settings
    from server.upkeep.one_server import the_one_service
    from server.work.continue_copy import Outside, continue_copy
    from server.work.refusal import Refusal

    try:
        settings = read_settings(asked.data.resolve())
        notes = tuple(file.read_bytes() for file in asked.checkpoint)
        outside = Outside(notes, asked.by, asked.none_known, asked.new_name)
        with the_one_service(settings.data_folder):
            signed = continue_copy(settings.database_url, settings.data_folder, outside, now_ms())
    except (BadSetting, CannotCheck, Refusal, RecordTrouble, OSError) as slip:
        print(f"not continued: {slip}", file=sys.stderr)
        return 2
    print(f"It goes on from here, {signed.checkpoint.size} lines; hand this checkpoint out:\n")
    print(signed.note.decode())
    return 0


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline continue", description=__doc__)
    parser.add_argument("--data", type=Path, default=Path("strawline-data"), help="the restored folder")
    parser.add_argument("--by", required=True, help="who says what is known outside: somebody the record knows")
    parser.add_argument("--checkpoint", type=Path, nargs="+", default=[], help="checkpoints known outside, as files")
    parser.add_argument("--none-known", action="store_true", help="declare that no checkpoint is known outside")
    parser.add_argument("--new-name", action="store_true", help="go on under another name: lines or the key are lost")
    return parser.parse_args(arguments)
