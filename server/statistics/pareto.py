"""Kinds of fault by how often they came, most frequent first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import accumulate

from server.statistics.errors import UnusableInput
from server.statistics.interval import Interval
from server.statistics.share_interval import share_interval
from server.statistics.tallies import whole


@dataclass(frozen=True, slots=True)
class ParetoBar:
    """One kind of fault: its count, its share of all with interval, and the share of it and all before it."""

    kind: str
    count: int
    share: Interval
    running_share: float


@dataclass(frozen=True, slots=True)
class ParetoChart:
    """The bars, most frequent first, their total and what they cannot tell."""

    bars: tuple[ParetoBar, ...]
    total: int
    cannot_tell: tuple[str, ...]


def pareto_chart(counts: Mapping[str, int], confidence: float = 0.95) -> ParetoChart:
    """Order kinds of fault by count, each share with its exact interval.

    Equation: share = count/total, Clopper–Pearson; running share = Σ of this and those before.
    Inputs: counts: kind -> count [faults]; confidence [1].
    Result: ParetoChart; shares [1].
    Example:
        >>> [(bar.kind, bar.count) for bar in pareto_chart({"colour": 9, "gap": 2, "crater": 4}).bars]
        [('colour', 9), ('crater', 4), ('gap', 2)]

    Range and traps: where intervals overlap the order may be chance. Often is not the same as grave.
    Source: interval by Clopper and Pearson (1934).
    """
    numbers = {kind: whole(f"counts[{kind}]", count) for kind, count in counts.items()}
    total = sum(numbers.values())
    if total == 0:
        raise UnusableInput("counts", total, "at least one fault", "Choose a time in which something was found.")
    ordered = sorted(numbers.items(), key=lambda pair: (-pair[1], pair[0]))
    running = accumulate(count for _, count in ordered)
    bars = tuple(
        ParetoBar(kind, count, share_interval(count, total, confidence), so_far / total)
        for (kind, count), so_far in zip(ordered, running, strict=True)
    )
    order = "Neighbours whose intervals overlap may stand in this order by chance."
    return ParetoChart(bars, total, (order, "It counts faults found, not how grave they were or what was missed."))
