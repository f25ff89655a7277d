"""A column of readings against one limit."""

import math

import numpy as np
import pytest

from server.statistics.conformity import Conformity, conform
from server.statistics.conformity_of_many import CODED, conform_many
from server.statistics.errors import NotANumber, UnusableInput, ZeroWidthLimit

LIMITS = [(None, 50.0), (40.0, None), (40.0, 50.0), (44.0, 46.0)]


def column(count: int) -> np.ndarray:
    """Readings on a grid, so that many lie exactly on a limit or a guard."""
    return np.random.default_rng(7).integers(350, 600, count) / 10.0


@pytest.mark.parametrize(("low", "high"), LIMITS)
def test_as_one_by_one(low: float | None, high: float | None) -> None:
    """A column over several blocks gets, reading by reading, what each gets alone."""
    readings = column(40_000)
    doubts = np.random.default_rng(8).choice([0.0, 0.5, 1.0, 4.0], readings.size)
    found = [CODED[code] for code in conform_many(readings, low, high, doubts)]
    alone = [conform(*pair[:1], low, high, pair[1]) for pair in zip(readings.tolist(), doubts.tolist(), strict=True)]
    assert found == alone
    assert len(set(found)) >= 3


def test_one_uncertainty_for_all() -> None:
    """One standard uncertainty serves the whole column."""
    found = conform_many([40.0, 49.0, 50.5, 60.0], None, 50.0, 1.0)
    assert [CODED[code] for code in found] == [
        Conformity.WITHIN,
        Conformity.MARGINAL,
        Conformity.OUTSIDE_NOT_PROVED,
        Conformity.OUTSIDE,
    ]


def test_no_uncertainty_on_file() -> None:
    """Without uncertainty what is inside is unknown and what is beyond is outside, not proved."""
    found = conform_many([40.0, 50.0, 60.0], None, 50.0, None)
    assert [CODED[code] for code in found] == [
        Conformity.UNKNOWN,
        Conformity.UNKNOWN,
        Conformity.OUTSIDE_NOT_PROVED,
    ]


def test_empty_column() -> None:
    """No readings give no codes."""
    assert conform_many([], None, 50.0, 1.0).tolist() == []


def test_first_reading_that_is_no_number() -> None:
    """The error names the place of the first NaN among the readings or the uncertainties."""
    with pytest.raises(NotANumber, match=r"values\[2\] is nan"):
        conform_many([1.0, 2.0, math.nan, math.nan], None, 50.0, 1.0)
    with pytest.raises(NotANumber, match=r"standard_uncertainties\[1\] is inf"):
        conform_many([1.0, 2.0], None, 50.0, [1.0, math.inf])


def test_bad_uncertainties() -> None:
    """Negative uncertainties and a column of another length are refused by name."""
    with pytest.raises(UnusableInput, match=r"standard_uncertainties\[1\] is -1.0"):
        conform_many([1.0, 2.0], None, 50.0, [1.0, -1.0])
    with pytest.raises(UnusableInput, match="expected 1 or 3 of them"):
        conform_many([1.0, 2.0, 3.0], None, 50.0, [1.0, 1.0])


@pytest.mark.parametrize("doubts", [None, 1.0])
def test_zero_width(doubts: float | None) -> None:
    """Limits that meet are refused whether or not there is an uncertainty."""
    with pytest.raises(ZeroWidthLimit):
        conform_many([1.0], 5.0, 5.0, doubts)
