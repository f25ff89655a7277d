"""Makes a backup of the record and what lies beside it, also while it is served."""

import argparse
import sys
from pathlib import Path

STOPPED = "No backup was made, and nothing half made is left. Those made before are as they were."


def run(arguments: list[str]) -> int:
    """Make one, and say where it lies and how far it reaches."""
    asked = _asked(arguments)
    from server.commands._telling import telling
    from server.record.book_of_lines import now_ms
    from server.record.troubles import RecordTrouble
    from server.settings import BadSetting, read_settings
    from server.upkeep.backing_up import back_up
    from server.upkeep.backup import CannotBackUp

    data = asked.data.resolve()
    if not data.is_dir():
        print(f"{data} is no folder; name the data folder with --data", file=sys.stderr)
        return 2
    try:
        with telling() as say:
            made = back_up(read_settings(data), now_ms(), say)
    except (BadSetting, CannotBackUp, RecordTrouble) as slip:
        print(slip, file=sys.stderr)
        return 2
    print(f"{made.folder}: {made.manifest.lines} lines, root {made.manifest.root}")
    print("whoever holds it holds the keys in it; `strawline drill` proves that it can be used")
    return 0


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline backup", description=__doc__)
    parser.add_argument("--data", type=Path, default=Path("strawline-data"), help="the data folder")
    return parser.parse_args(arguments)
