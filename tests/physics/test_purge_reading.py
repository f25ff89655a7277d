"""Readings before forecasts."""

import math

import pytest

from server.physics.errors import UnusableInput
from server.physics.purge_reading import known_oxygen


@pytest.mark.parametrize(("forecast", "reading"), [(12.0, 35.0), (35.0, 12.0), (35.0, 0.0)])
def test_a_reading_always_overrides(forecast, reading):
    """Whichever is higher, the reading is what counts, zero included, and is marked as read."""
    assert known_oxygen(forecast, reading) == (reading, "read")


def test_without_a_reading_it_is_computed():
    """Without a reading the forecast stands, marked as computed."""
    assert known_oxygen(12.0, None) == (12.0, "computed")


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: known_oxygen(12.0, math.nan), "reading_ppm"),
    ],
)
def test_what_cannot_be_is_named(call, named):
    """A reading that is no number is refused by name."""
    with pytest.raises(UnusableInput, match=named):
        call()
