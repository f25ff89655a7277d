"""Recomputes the whole record from its file and names every entry that was altered, left out or put in."""

import argparse
from pathlib import Path


def run(arguments: list[str]) -> int:
    """Check, say what does not hold, and give 1 where anything does not, 2 where it could not be checked."""
    asked = _asked(arguments)
    from server.record.record_check import CannotCheck, check_record
    from server.settings import BadSetting, read_settings

    try:
        settings = read_settings(asked.data.resolve())
        outside = [file.read_bytes() for file in asked.outside]
        found = check_record(settings.database_url, settings.data_folder, outside, asked.key)
    except (BadSetting, CannotCheck, OSError) as slip:
        print(f"not checked: {slip}")
        return 2
    for said in found.odd:
        print(said)
    verdict = f"{len(found.odd)} things do not hold" if found.odd else "everything holds"
    print(f"{found.lines} lines, {found.checkpoints} checkpoints, {len(outside)} from outside: {verdict}")
    return 1 if found.odd else 0


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline check-record", description=__doc__)
    parser.add_argument("--data", type=Path, default=Path("strawline-data"), help="the data folder")
    parser.add_argument("--outside", type=Path, nargs="*", default=[], help="checkpoints handed out that came back")
    parser.add_argument("--key", help="the record's public key, as it was handed out; otherwise the data folder's own")
    return parser.parse_args(arguments)
