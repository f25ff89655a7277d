"""The band of time keeps the order and the distances of what lies on it."""

from server.charts.time_band import LEFT, RIGHT, lay_band

HOUR = 3_600_000


def test_ends_and_middle():
    """The first mark stands at the left end, the last at the right, one halfway between in the middle."""
    band = lay_band([0, 4 * HOUR], [(2 * HOUR, False, "bead")])
    assert [(mark.x, mark.kind) for mark in band.marks] == [
        (LEFT, "pass"),
        (RIGHT, "pass"),
        ((LEFT + RIGHT) / 2, "failed"),
    ]
    assert band.title == "2 passes and 1 checks, 1 of them failed"


def test_never_too_many_days():
    """A year has at most twelve days written under it, an empty band none."""
    assert 2 <= len(lay_band([0, 365 * 24 * HOUR], []).days) <= 12
    assert lay_band([], []).marks == ()


def test_one_moment_alone():
    """A single pass stands on the band without a span to divide by."""
    assert [mark.x for mark in lay_band([7], []).marks] == [LEFT]
