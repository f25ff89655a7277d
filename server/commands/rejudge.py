"""Judges the whole record again and tells what changed; --today holds old work against what is in force now."""

import argparse
import sys
from datetime import UTC, datetime
from pathlib import Path


def run(arguments: list[str]) -> int:
    """Open the record, judge everything, print one line for each question of which something changed."""
    asked = _asked(arguments)
    from server.commands._writing import writing
    from server.judgement.book import THEN, Book
    from server.record.troubles import RecordTrouble
    from server.settings import BadSetting, read_settings
    from server.work.rejudge import rejudge

    book = Book("today", on=datetime.now(UTC).date()) if asked.today else THEN
    data = asked.data.resolve()
    if not data.is_dir():
        print(f"{data} is no folder; name the data folder with --data", file=sys.stderr)
        return 2
    try:
        with writing(read_settings(data)) as record:
            found = rejudge(record, book=book, progress=_say)
    except (BadSetting, RecordTrouble) as trouble:
        print(trouble, file=sys.stderr)
        return 2
    frames, subjects, known_at = found.so_far
    print(f"{frames} frames, {subjects} subjects, up to line {known_at}, book {book.name!r}")
    for each in found.changed:
        print(f"  {each.question:<28} new {each.new:>5}   gone {each.gone:>5}   says something else {each.other:>5}")
    if not found.changed:
        print("  nothing changed")
    return 0


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline rejudge", description=__doc__)
    parser.add_argument("--data", type=Path, default=Path("strawline-data"), help="the data folder")
    parser.add_argument("--today", action="store_true", help="judge old work by what is in force today")
    return parser.parse_args(arguments)


def _say(done: int, of: int) -> None:
    if sys.stderr.isatty():
        print(f"\rjudging {100 * done // max(of, 1)} %", end="\n" if done == of else "", file=sys.stderr, flush=True)
