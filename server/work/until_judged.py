"""Waits a moment for the judge, so that a gate looked at right after an entry does not have to be asked twice."""

import time

from server.record.book_of_lines import Record

_LOOK_AGAIN_S = 0.05


def until_judged(record: Record, patience_s: float = 5.0) -> bool:
    """Wait until everything known now is judged; tells whether it is, and never waits longer than its patience."""
    with record.reads() as reads:
        wanted = reads.last_position()
    until = time.monotonic() + patience_s
    while True:
        with record.reads() as reads:
            if reads.judged_to() >= wanted:
                return True
        if time.monotonic() > until:
            return False
        time.sleep(_LOOK_AGAIN_S)
