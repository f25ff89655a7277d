"""Faulty and sound in two groups: could chance alone have parted them so?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import fsum

from server.statistics.tallies import tally

# Tables that differ from the one seen only by rounding count as equally likely.
_TIE = 1.0 + 1e-7


@dataclass(frozen=True, slots=True)
class ExactTest:
    """The chances, if both groups were alike, of a table as far out as the one seen."""

    two_sided: float
    first_worse: float
    first_better: float
    mid_two_sided: float
    mid_first_worse: float


def exact_test(faults: int, seen: int, other_faults: int, other_seen: int) -> ExactTest:
    """Test exactly whether two groups have the same share of faults.

    Equation: tables with the same margins follow the hypergeometric law; two-sided adds all that are no more likely
        than the one seen; mid-P takes off half the chance of the one seen.
    Inputs: faults, seen, other_faults, other_seen [joints].
    Result: ExactTest [1].
    Example:
        >>> round(exact_test(3, 12, 4, 188).two_sided, 4)
        0.0051

    Range and traps: picked as the worst of many groups, a small p is nothing strange; use `screen`, with q.
        It says "associated", never "caused".
    Source: Fisher, Statistical Methods for Research Workers, section 21.02; mid-P after Lancaster (1961).
    """
    first, other = tally(faults, seen), tally(other_faults, other_seen)
    chances = _chances(first[0] + other[0], first[1], other[1])
    here = chances[first[0]]
    worse = fsum(chance for count, chance in chances.items() if count >= first[0])
    better = fsum(chance for count, chance in chances.items() if count <= first[0])
    both = fsum(chance for chance in chances.values() if chance <= here * _TIE)
    return ExactTest(min(1.0, both), min(1.0, worse), min(1.0, better), both - here / 2.0, worse - here / 2.0)


def _chances(faults: int, seen: int, other_seen: int) -> dict[int, float]:
    """The chance of each count of faults in the first group, all margins being kept."""
    least, most = max(0, faults - other_seen), min(faults, seen)
    middle = min(max((faults + 1) * (seen + 1) // (seen + other_seen + 2), least), most)
    weights = {middle: 1.0}
    weights.update(_outward(middle, most, faults, seen, other_seen))
    weights.update(_outward(middle, least, faults, seen, other_seen))
    total = fsum(weights.values())
    return {count: weights[count] / total for count in range(least, most + 1)}


def _outward(start: int, end: int, faults: int, seen: int, other_seen: int) -> Iterator[tuple[int, float]]:
    """Weights from the likeliest table outwards, so that nothing overflows whatever the size."""
    weight, step = 1.0, 1 if end >= start else -1
    for count in range(start, end, step):
        lower = min(count, count + step)
        rise = (faults - lower) * (seen - lower) / ((lower + 1) * (other_seen - faults + lower + 1))
        weight *= rise if step == 1 else 1.0 / rise
        yield count + step, weight
