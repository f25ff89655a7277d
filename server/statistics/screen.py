"""Every cylinder, sleeve or welder against all the others, with the price of looking at many."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from server.statistics.errors import UnusableInput
from server.statistics.false_discovery import q_values
from server.statistics.interval import Interval
from server.statistics.risk_ratio import risk_ratio
from server.statistics.share_interval import share_interval
from server.statistics.tallies import tally
from server.statistics.two_by_two import exact_test


@dataclass(frozen=True, slots=True)
class Screened:
    """One level against the rest: its tally, share, ratio to the rest, mid-P that it is worse, and q."""

    level: str
    faults: int
    seen: int
    share: Interval
    ratio: Interval
    p: float
    q: float


def screen(tallies: Mapping[str, tuple[int, int]], confidence: float = 0.95) -> tuple[Screened, ...]:
    """Compare each level with all the others together, worst q first.

    Equation: one-sided mid-P of `exact_test` per level; q by Benjamini–Hochberg over all levels.
    Inputs: tallies: level -> (faults, seen) [joints]; confidence [1].
    Result: one Screened per level; p and q [1].
    Example:
        >>> [(row.level, round(row.q, 3)) for row in screen({"a": (3, 12), "b": (2, 90), "c": (2, 98)})]
        [('a', 0.008), ('b', 0.847), ('c', 0.847)]

    Range and traps: two levels or more, all that were in use. "Associated", never "caused": a welder who used
        only one cylinder cannot be told from it.
    Source: exact test and q as cited there.
    """
    if len(tallies) < 2:
        raise UnusableInput("tallies", len(tallies), "two levels or more", "Compare with what else was in use.")
    own = {level: tally(*pair) for level, pair in tallies.items()}
    every = sum(faults for faults, _ in own.values()), sum(seen for _, seen in own.values())
    # Among many levels few tallies differ, and what is alike is worked out once.
    told = {pair: _against(pair, every, confidence) for pair in set(own.values())}
    chances = [told[pair].p for pair in own.values()]
    rows = [
        Screened(level, *pair, told[pair].share, told[pair].ratio, told[pair].p, q)
        for (level, pair), q in zip(own.items(), q_values(chances), strict=True)
    ]
    return tuple(sorted(rows, key=lambda row: (row.q, row.p)))


class _Against(NamedTuple):
    share: Interval
    ratio: Interval
    p: float


def _against(own: tuple[int, int], every: tuple[int, int], confidence: float) -> _Against:
    """One tally against all the others, added up."""
    rest = every[0] - own[0], every[1] - own[1]
    p = exact_test(*own, *rest).mid_first_worse
    return _Against(share_interval(*own, confidence), risk_ratio(*own, *rest, confidence), p)
