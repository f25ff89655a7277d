"""The checks a count passes before it enters a sum."""

from __future__ import annotations

from collections.abc import Sequence

from server.statistics.errors import UnusableInput
from server.statistics.inputs import finite


def whole(field: str, value: float) -> int:
    """Give the count back as an integer, or refuse it by name when it is negative or not whole."""
    if finite(field, value) < 0 or value != int(value):
        raise UnusableInput(field, value, "a whole number, 0 or more", "Count again; shares and rates are not counts.")
    return int(value)


def tally(faults: float, seen: float) -> tuple[int, int]:
    """Give (faults, seen) back as integers, or refuse a group that is empty or has more faults than members."""
    if whole("seen", seen) == 0:
        raise UnusableInput("seen", seen, "at least one joint looked at", "Choose a group that is not empty.")
    if whole("faults", faults) > seen:
        raise UnusableInput("faults", faults, f"at most the {seen:g} looked at", "Count each joint once.")
    return int(faults), int(seen)


def group_tallies(faults: Sequence[float], seen: Sequence[float]) -> tuple[tuple[int, int], ...]:
    """Give (faults, seen) for each group, or refuse rows that are empty or do not match."""
    if len(faults) != len(seen) or not seen:
        raise UnusableInput("faults", len(faults), f"as many groups as seen, {len(seen)}", "Give both for each group.")
    return tuple(tally(bad, size) for bad, size in zip(faults, seen, strict=True))
