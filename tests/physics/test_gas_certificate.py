"""A reading below what its gas brings along is impossible, and says so."""

import math

import pytest

from server.physics.errors import UnusableInput
from server.physics.gas_certificate import reading_possible


def test_zero_in_gas_of_two():
    """0 ppm read in gas certified at 2 ppm, by an analyser good to 1 ppm, is impossible and says why."""
    found = reading_possible(0.0, 1.0, 2.0)
    assert found.possible is False
    assert found.because.startswith("Impossible: 0 ppm is 2 ppm below the 2 ppm its gas brings along")


@pytest.mark.parametrize(
    ("reading", "possible"), [(0.354, False), (0.356, True), (2.0, True), (40.0, True), (-0.5, False)]
)
def test_the_edge_lies_at_1_645_doubts(reading, possible):
    """A reading is impossible from just over 1.645 standard uncertainties under the certificate on."""
    assert reading_possible(reading, 1.0, 2.0).possible is possible


def test_equal_to_the_edge_is_possible():
    """Exactly 1.645 standard uncertainties below is still possible."""
    assert reading_possible(0.0, 1.0, 1.645).possible is True


@pytest.mark.parametrize(
    ("doubt", "certificate", "missing"), [(None, 2.0, "analyser's uncertainty"), (1.0, None, "certificate's oxygen")]
)
def test_nobody_can_tell(doubt, certificate, missing):
    """Without the analyser's uncertainty or the certificate nobody can tell, and what is missing is named."""
    found = reading_possible(0.0, doubt, certificate)
    assert found.possible is None
    assert missing in found.because


@pytest.mark.parametrize(
    ("numbers", "named"),
    [
        ((math.nan, 1.0, 2.0), "reading_ppm"),
        ((0.0, -1.0, 2.0), "reading_doubt_ppm"),
        ((0.0, 1.0, -2.0), "certificate_ppm"),
    ],
)
def test_unusable_numbers_are_named(numbers, named):
    """A reading that is no number, an uncertainty or a certificate below zero is refused by name."""
    with pytest.raises(UnusableInput, match=named):
        reading_possible(*numbers)
