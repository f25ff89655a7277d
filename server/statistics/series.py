"""The checks a row of readings passes before it enters a sum."""

from __future__ import annotations

from collections.abc import Iterable

from server.statistics.errors import UnusableInput
from server.statistics.inputs import finite


class TooFewPoints(UnusableInput):
    """A row of readings too short for what was asked of it."""


def series(field: str, values: Iterable[float], at_least: int = 1) -> tuple[float, ...]:
    """Give the readings back as a tuple, or refuse by name a short row or the first reading that is no number."""
    checked = tuple(finite(f"{field}[{position}]", value) for position, value in enumerate(values))
    if len(checked) < at_least:
        remedy = "Widen the choice of dates or joints."
        raise TooFewPoints(field, len(checked), f"at least {at_least} readings", remedy)
    return checked
