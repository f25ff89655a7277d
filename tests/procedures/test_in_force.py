"""Which revision was in force on a day."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.facts.procedure import Procedure
from server.procedures.in_force import last_day, revision_in_force, revisions
from tests.procedures.ladder import ladder

FIRST = ladder()
SECOND = FIRST.model_copy(update={"revision": "2", "valid_from": date(2031, 6, 1)})
OTHER = FIRST.model_copy(update={"name": "OT", "valid_from": date(2031, 4, 1)})
ALL = [SECOND, OTHER, FIRST]


@pytest.mark.parametrize(
    ("on", "expected"),
    [
        (date(2031, 2, 2), None),
        (date(2031, 2, 3), FIRST),
        (date(2031, 5, 31), FIRST),
        (date(2031, 6, 1), SECOND),
        (date(2040, 1, 1), SECOND),
    ],
)
def test_a_revision_holds_from_its_first_day_until_the_next_starts(on: date, expected: Procedure | None) -> None:
    """The day a revision starts is its own; before the first there is none."""
    assert revision_in_force(ALL, "LD", on) is expected


def test_the_last_day_is_the_day_before_the_next_revision() -> None:
    """A revision followed by another ends the evening before; the newest has no end yet."""
    assert last_day(ALL, FIRST) == date(2031, 5, 31)
    assert last_day(ALL, SECOND) is None


def test_revisions_come_oldest_first() -> None:
    """Only the procedure's own revisions, in the order they started."""
    assert revisions(ALL, "LD") == [FIRST, SECOND]


@given(st.lists(st.integers(0, 400), min_size=1, max_size=6, unique=True), st.integers(-5, 420))
def test_no_revision_that_started_later_is_passed_over(starts: list[int], asked: int) -> None:
    """Whatever the starts, the revision in force is the last one begun."""
    zero = date(2031, 1, 1)
    made = [FIRST.model_copy(update={"revision": str(n), "valid_from": zero + timedelta(n)}) for n in starts]
    found = revision_in_force(made, "LD", zero + timedelta(asked))
    begun = [n for n in starts if n <= asked]
    assert (found.revision if found else None) == (str(max(begun)) if begun else None)
