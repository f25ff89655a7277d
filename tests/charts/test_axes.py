"""Axes: round marks inside the ends, powers of ten that hold both ends, and where a value lies."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.charts.axes import even_axis, powers_axis

NUMBERS = st.floats(-1e6, 1e6)


@given(NUMBERS, st.floats(1e-3, 1e6))
def test_an_even_axis_has_a_few_round_marks_inside(low: float, span: float) -> None:
    """Between two and eight marks, evenly apart, none outside the ends."""
    axis = even_axis("x", low, low + span)
    slack = 1e-6 * max(abs(low), span)
    assert 2 <= len(axis.marks) <= 8
    assert axis.low - slack <= axis.marks[0] < axis.marks[-1] <= axis.high + slack
    steps = [after - before for before, after in zip(axis.marks, axis.marks[1:], strict=False)]
    assert max(steps) == pytest.approx(min(steps), rel=1e-3, abs=1e-6 * abs(low))


@given(st.floats(1e-3, 1e6), st.floats(1.0, 1e6))
def test_an_axis_of_powers_holds_both_ends(low: float, factor: float) -> None:
    """Both ends lie on it, its marks are powers of ten, and there are two at least."""
    axis = powers_axis("x", low, low * factor)
    assert axis.low <= low * 1.0000001
    assert axis.high >= low * factor * 0.9999999
    assert all(round(mark / 10.0 ** round(len(f"{mark:.0f}") - 1), 6) == 1.0 for mark in axis.marks if mark >= 1.0)
    assert len(axis.marks) >= 2


def test_where_a_value_lies() -> None:
    """The ends lie at 0 and 1, the middle halfway, on an axis of powers by its factor; what lies beyond is outside."""
    even, powers = even_axis("x", -50.0, 150.0), powers_axis("x", 1.0, 10_000.0)
    assert [even.share(value) for value in (-50.0, 50.0, 150.0, 350.0)] == [0.0, 0.5, 1.0, 2.0]
    assert [powers.share(value) for value in (1.0, 100.0, 10_000.0)] == pytest.approx([0.0, 0.5, 1.0])
    assert powers.share(0.0) < 0.0


def test_an_axis_without_extent_is_given_one() -> None:
    """A curve that does not change still has an axis to stand on."""
    assert even_axis("x", 3.0, 3.0).high > 3.0
    assert len(powers_axis("x", 10.0, 10.0).marks) == 2
