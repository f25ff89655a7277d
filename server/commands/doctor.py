"""Examines disk, clock, record, keys, certificate and backups, and says what to do."""

import argparse
import json
import sys
from pathlib import Path


def run(arguments: list[str]) -> int:
    """Examine, say what was found, and give 1 where something has to be mended."""
    asked = _asked(arguments)
    from server.record.book_of_lines import now_ms
    from server.settings import BadSetting, read_settings
    from server.upkeep.doctor import examine
    from server.upkeep.parts import FAILING

    folder = asked.data.resolve()
    if not folder.is_dir():
        print(f"{folder} is no folder; name the data folder with --data", file=sys.stderr)
        return 2
    try:
        parts = examine(read_settings(folder), now_ms())
    except BadSetting as bad:
        print(bad, file=sys.stderr)
        return 2
    if asked.json:
        print(json.dumps([part._asdict() for part in parts], indent=1))
    else:
        for part in parts:
            print(f"{part.state:<8} {part.name:<12} {part.sentence}")
    return 1 if any(part.state == FAILING for part in parts) else 0


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline doctor", description=__doc__)
    parser.add_argument("--data", type=Path, default=Path("strawline-data"), help="the data folder")
    parser.add_argument("--json", action="store_true", help="for a program to read")
    return parser.parse_args(arguments)
