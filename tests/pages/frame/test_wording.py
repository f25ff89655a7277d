"""Numbers are written with the digits that matter."""

import pytest

from server.pages.frame.wording import quantity


@pytest.mark.parametrize(
    ("value", "unit", "shown"),
    [
        (99.995, "%", "99.995 %"),
        (33.33333, "%", "33.33 %"),
        (0.162345, "kJ/mm", "0.1623 kJ/mm"),
        (46.0, "ppm", "46 ppm"),
        (None, "ppm", "not recorded"),
    ],
)
def test_a_purity_keeps_its_last_digits(value: float | None, unit: str, shown: str):
    """Four digits are enough but for a purity, whose last digits are what the certificate says."""
    assert quantity(value, unit) == shown
