"""Judges the whole record again and tells what changed; --today holds old work against what is in force now."""

import argparse
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

STOPPED = (
    "What was judged so far is kept, and what that changed will not be told again. Type it again: it goes through "
    "everything, and writes only what differs."
)


def run(arguments: list[str]) -> int:
    """Open the record, judge everything, print one line for each question of which something changed."""
    asked = _asked(arguments)
    from server.commands._telling import telling
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
        with writing(read_settings(data)) as record, telling() as say:
            say("what stands, and all that is known of the shop", 0, 0)
            found = rejudge(record, book=book, progress=partial(_tell, say))
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


def _tell(say: Callable[[str, int, int], None], done: int, of: int) -> None:
    say("frames judged", done, of)
    if done == of:
        say("what frames share, and what changed", 0, 0)
