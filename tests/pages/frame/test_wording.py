"""Numbers are written with the digits that matter."""

import pytest

from server.pages.frame.wording import allowed_range, quantity


@pytest.mark.parametrize(
    ("value", "unit", "shown"),
    [
        (99.995, "%", "99.995 %"),
        (33.33333, "%", "33.33 %"),
        (0.162345, "kJ/mm", "0.1623 kJ/mm"),
        (46.0, "ppm", "46 ppm"),
        (8.0, "#", "#8"),
        (3.0, "grade", "grade 3"),
        (None, "ppm", "not recorded"),
    ],
)
def test_numbers_are_written_as_they_are_said(value: float | None, unit: str, shown: str):
    """Four digits are enough but for a purity, whose last digits are what counts; cups and grades as the trade says."""
    assert quantity(value, unit) == shown


def test_a_limit_is_said_the_same_way():
    """What is allowed carries its unit as the value beside it does."""
    assert allowed_range(8.0, None, "#") == "at least #8"
    assert allowed_range(None, 1.0, "grade") == "at most grade 1"
    assert allowed_range(30.0, 50.0, "A") == "30 to 50 A"
    assert allowed_range(None, 20.0) == "at most 20"
