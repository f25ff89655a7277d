"""Restores the newest backup into a folder of its own, and recomputes everything in it."""

import argparse
import os
import sys
from pathlib import Path

STOPPED = "Nothing was proved, and the copy it made is taken away. The backup is as it was."


def run(arguments: list[str]) -> int:
    """Drill, say what was found, and give 1 where something does not hold, 2 where there is nothing to drill."""
    asked = _asked(arguments)
    if asked.stand_back:
        os.nice(10)
    from server.commands._telling import telling
    from server.record.book_of_lines import now_ms
    from server.record.saying import unsaid
    from server.settings import BadSetting, read_settings
    from server.upkeep.backing_up import NoBackupYet, drill_newest

    try:
        with telling() as say:
            # What stands back is looked at by nobody but a log.
            told = unsaid if asked.stand_back else say
            drilled = drill_newest(read_settings(asked.data.resolve()), now_ms(), told)
    except (BadSetting, NoBackupYet, OSError) as slip:
        print(slip, file=sys.stderr)
        return 2
    for said in drilled.odd:
        print(said)
    if drilled.odd:
        print(f"{drilled.backup} cannot be relied on: make another, and look after the disk it lies on")
        return 1
    print(f"{drilled.backup}: {drilled.lines} lines restored and recomputed, root {drilled.root} as it was")
    return 0


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline drill", description=__doc__)
    parser.add_argument("--data", type=Path, default=Path("strawline-data"), help="the data folder")
    parser.add_argument("--stand-back", action="store_true", help="let everything else on the machine go first")
    return parser.parse_args(arguments)
