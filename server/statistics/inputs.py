"""The checks every single number passes before it enters a sum."""

from __future__ import annotations

import math

from server.statistics.errors import NotANumber, UnusableInput


def finite(field: str, value: float) -> float:
    """Give the number back, or refuse it by name when it is NaN or infinite."""
    if not math.isfinite(value):
        raise NotANumber(field, value, "a finite number", "Correct the entry or leave it out.")
    return float(value)


def positive(field: str, value: float) -> float:
    """Give the number back, or refuse it by name when it is not above zero."""
    if finite(field, value) <= 0.0:
        raise UnusableInput(field, value, "a number above zero", "Correct it; zero leaves nothing to divide by.")
    return float(value)


def proportion(field: str, value: float) -> float:
    """Give the number back, or refuse it by name when it is not strictly between 0 and 1."""
    if not 0.0 < finite(field, value) < 1.0:
        raise UnusableInput(field, value, "a share between 0 and 1, ends left out", "Write 3 % as 0.03.")
    return float(value)
