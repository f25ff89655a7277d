"""Numbers, counts, rows and lives that cannot be used are refused by name."""

import math

import pytest

from server.statistics.errors import NotANumber, UnusableInput
from server.statistics.inputs import finite, positive, proportion
from server.statistics.lifetimes import lifetimes
from server.statistics.series import TooFewPoints, series
from server.statistics.tallies import group_tallies, tally, whole


def test_good_numbers_pass() -> None:
    """What can be used comes back unchanged."""
    assert (finite("a", -3), positive("a", 2), proportion("a", 0.5)) == (-3.0, 2.0, 0.5)
    assert (positive("a", 1e-9), proportion("a", 1e-9)) == (1e-9, 1e-9)
    assert series("a", [1, 2], at_least=2) == (1.0, 2.0)
    assert series("a", [3]) == (3.0,)
    assert (whole("a", 3.0), tally(4, 4), group_tallies([0], [2])) == (3, (4, 4), ((0, 2),))
    assert lifetimes([0.1, 2.0], [True, False]) == ((0.1, 2.0), (True, False))
    assert lifetimes([1.0], [True]) == ((1.0,), (True,))


@pytest.mark.parametrize("number", [math.nan, math.inf])
def test_no_numbers(number: float) -> None:
    """NaN and infinity are refused wherever a number is asked for."""
    for check in (finite, positive, proportion, whole):
        with pytest.raises(NotANumber, match="depth_mm is"):
            check("depth_mm", number)
    with pytest.raises(NotANumber, match=r"depth_mm\[1\]"):
        series("depth_mm", [1.0, number])


def test_an_error_tells_all() -> None:
    """An error carries field, value, what is expected and what to do, and says all four."""
    error = UnusableInput("flow", -1.0, "0 or more", "Read the meter again.")
    assert (error.field, error.value, error.expected, error.remedy) == (
        "flow",
        -1.0,
        "0 or more",
        "Read the meter again.",
    )
    assert str(error) == "flow is -1.0; expected 0 or more. Read the meter again."


@pytest.mark.parametrize("number", [0.0, 1.0, 1.2, -0.1])
def test_not_a_share(number: float) -> None:
    """Nought, one and what lies outside them are no shares."""
    with pytest.raises(UnusableInput, match="a share between 0 and 1"):
        proportion("rate", number)


@pytest.mark.parametrize("number", [0.0, -2.0])
def test_not_above_zero(number: float) -> None:
    """Zero and less are refused where something is divided by it."""
    with pytest.raises(UnusableInput, match="above zero"):
        positive("sigma", number)


def test_short_rows() -> None:
    """A row too short says how many readings there are and how many are needed."""
    with pytest.raises(TooFewPoints, match="values is 1; expected at least 2 readings"):
        series("values", [1.0], at_least=2)


@pytest.mark.parametrize("count", [-1, 2.5])
def test_not_a_count(count: float) -> None:
    """Negative and broken counts are refused."""
    with pytest.raises(UnusableInput, match="a whole number, 0 or more"):
        whole("faults", count)


@pytest.mark.parametrize(("faults", "seen", "said"), [(0, 0, "at least one joint"), (5, 4, "at most the 4")])
def test_impossible_tallies(faults: int, seen: int, said: str) -> None:
    """An empty group and one with more faults than members are refused."""
    with pytest.raises(UnusableInput, match=said):
        tally(faults, seen)


@pytest.mark.parametrize(("faults", "seen"), [([1], [2, 3]), ([], [])])
def test_groups_that_do_not_match(faults: list[int], seen: list[int]) -> None:
    """Rows of different length, and none at all, are refused."""
    with pytest.raises(UnusableInput, match="as many groups as seen"):
        group_tallies(faults, seen)


def test_impossible_lives() -> None:
    """Lives without an answer and lives of no length are refused."""
    with pytest.raises(UnusableInput, match="one answer for each of 2 times"):
        lifetimes([1.0, 2.0], [True])
    with pytest.raises(UnusableInput, match=r"times\[1\] is 0.0; expected a time above zero"):
        lifetimes([1.0, 0.0], [True, True])
