"""The checks a row of lives passes before it enters a sum: how long, and whether it ended in failure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from server.statistics.errors import UnusableInput
from server.statistics.series import series


def lifetimes(times: Iterable[float], failed: Iterable[bool]) -> tuple[tuple[float, ...], tuple[bool, ...]]:
    """Give both rows back as tuples, or refuse by name rows that do not match and lives not above zero."""
    lives, ends = series("times", times, at_least=1), tuple(bool(end) for end in failed)
    if len(lives) != len(ends):
        raise UnusableInput("failed", len(ends), f"one answer for each of {len(lives)} times", "Give both for each.")
    for place, life in enumerate(lives):
        if life <= 0.0:
            raise UnusableInput(f"times[{place}]", life, "a time above zero", "Count from the day of shipping.")
    return lives, ends


def counted_lifetimes(leaving: Mapping[float, int], failed: Mapping[float, int]) -> tuple[float, ...]:
    """Give the lengths of lives counted by length, the shortest first, or refuse by name counts that do not match."""
    times = series("times", sorted(leaving), at_least=1)
    if times[0] <= 0.0:
        raise UnusableInput("times", times[0], "times above zero", "Count from the day of shipping.")
    for time, count in failed.items():
        if count > leaving.get(time, 0):
            raise UnusableInput("failed", count, f"at most the {leaving.get(time, 0)} lives of {time}", "Count anew.")
    return times
