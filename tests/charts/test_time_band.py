"""The band of time keeps the order and the distances of what lies on it."""

from bisect import bisect_left
from typing import NamedTuple

from server.charts.time_band import LEFT, RIGHT, Mark, Scale, columns_from, lay_band

HOUR = 3_600_000


class Check(NamedTuple):
    at_ms: int


def told(check: Check) -> str:
    return f"bead {check.at_ms / HOUR:g}"


class Passes:
    def __init__(self, *at_ms: int) -> None:
        self._at_ms = at_ms
        self.number, self.ends_ms = len(at_ms), (at_ms[0], at_ms[-1])

    def columns(self, scale: Scale) -> tuple[int, ...]:
        return tuple(columns_from(self._at_ms[0], self._first_from, scale))

    def _first_from(self, moment_ms: int) -> int | None:
        place = bisect_left(self._at_ms, moment_ms)
        return self._at_ms[place] if place < len(self._at_ms) else None


def test_ends_and_middle():
    """The first stroke stands at the left end, the last at the right, a check halfway between in the middle."""
    band = lay_band(Passes(0, 4 * HOUR), [], [Check(2 * HOUR)], told)
    assert band.strokes == (LEFT, RIGHT)
    assert band.marks == (Mark((LEFT + RIGHT) // 2, "failed", "bead 2"),)
    assert band.title == "2 passes and 1 checks, 1 of them failed"


def test_a_stroke_to_each_column_that_has_a_pass():
    """Of many passes each column of the band that holds one has one stroke, and no other column has any."""
    at_ms = [each * each * 977 for each in range(3000)]
    columns = dict.fromkeys(LEFT + each * (RIGHT - LEFT) // at_ms[-1] for each in at_ms)
    assert lay_band(Passes(*at_ms), [], [], told).strokes == tuple(columns)
    assert 700 < len(columns) <= RIGHT - LEFT + 1


def test_checks_on_top_of_each_other_are_one_mark():
    """Checks too close to be told apart stand as one mark that says how many; a failed one keeps a mark of its own."""
    good = [Check(each * HOUR) for each in (0, 2, 3, 900)]
    band = lay_band(Passes(0, 1000 * HOUR), good, [Check(HOUR)], told)
    assert [(mark.kind, mark.words) for mark in band.marks] == [
        ("good", "bead 0 and 2 more"),
        ("good", "bead 900"),
        ("failed", "bead 1"),
    ]


def test_never_too_many_days():
    """A year has at most twelve days written under it, an empty band none."""
    assert 2 <= len(lay_band(Passes(0, 365 * 24 * HOUR), [], [], told).days) <= 12
    assert lay_band(None, [], [], told).strokes == ()


def test_one_moment_alone():
    """A single pass stands on the band without a span to divide by."""
    assert lay_band(Passes(7), [], [], told).strokes == (LEFT,)
