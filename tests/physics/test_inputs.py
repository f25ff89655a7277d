"""Checks of single numbers, and the words of the errors."""

import math

import pytest

from server.physics.errors import NotANumber, UnusableInput
from server.physics.inputs import between, finite, positive


@pytest.mark.parametrize("number", [math.nan, math.inf, -math.inf])
@pytest.mark.parametrize("check", [finite, positive, lambda field, value: between(field, value, 0.0, 1.0)])
def test_what_is_no_number_is_named(check, number):
    """NaN and the infinities never pass any check, and the error says which field held them."""
    with pytest.raises(NotANumber) as refused:
        check("volts", number)
    assert refused.value.field == "volts"


@pytest.mark.parametrize("number", [0.0, -0.0, -1.0])
def test_zero_and_less_are_not_positive(number):
    """Zero and negative numbers are refused where something is divided by them."""
    with pytest.raises(UnusableInput, match=r"wall_mm is -?[01]\.0; expected a number above zero"):
        positive("wall_mm", number)


def test_ends_belong_to_the_range():
    """A range holds its ends, and what lies a hair beyond is refused with both ends named."""
    assert between("duty", 0.0, 0.0, 1.0) == 0.0
    assert between("duty", 1, 0.0, 1.0) == 1.0
    with pytest.raises(UnusableInput, match="from 0 to 1"):
        between("duty", 1.0 + 1e-9, 0.0, 1.0)


def test_an_error_says_what_to_do():
    """An error holds field, value, what is expected and what to do next, and its text says all four."""
    error = UnusableInput("travel_mm_per_min", 0, "a number above zero", "Enter the speed.")
    assert (error.field, error.value, error.expected, error.remedy) == (
        *("travel_mm_per_min", 0),
        *("a number above zero", "Enter the speed."),
    )
    assert str(error) == "travel_mm_per_min is 0; expected a number above zero. Enter the speed."
