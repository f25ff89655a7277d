"""The checks every single number passes before it enters a formula."""

from __future__ import annotations

import math

from server.physics.errors import NotANumber, UnusableInput


def finite(field: str, value: float) -> float:
    """Give the number back, or refuse it by name when it is NaN or infinite."""
    if not math.isfinite(value):
        raise NotANumber(field, value, "a finite number", "Correct the entry or leave it out.")
    return float(value)


def positive(field: str, value: float, remedy: str = "Correct it; zero leaves nothing to divide by.") -> float:
    """Give the number back, or refuse it by name when it is not above zero."""
    if finite(field, value) <= 0.0:
        raise UnusableInput(field, value, "a number above zero", remedy)
    return float(value)


def between(field: str, value: float, low: float, high: float, remedy: str = "Check the unit and the entry.") -> float:
    """Give the number back, or refuse it by name when it lies outside low … high, ends included."""
    if not low <= finite(field, value) <= high:
        raise UnusableInput(field, value, f"a number from {low:g} to {high:g}", remedy)
    return float(value)
