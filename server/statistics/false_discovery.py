"""What is left of small p-values when many were looked at."""

from __future__ import annotations

from collections.abc import Sequence

from server.statistics.errors import UnusableInput
from server.statistics.series import series


def q_values(p_values: Sequence[float]) -> tuple[float, ...]:
    """Give the Benjamini–Hochberg q of each p in a family of tests.

    Equation: q_(i) = min over j ≥ i of m p_(j)/j, at most 1, with p sorted upwards.
    Inputs: p_values [1], every test made, not only the striking ones.
    Result: q in the order given [1].
    Example:
        >>> q_values([0.01, 0.04, 0.03, 0.5])
        (0.04, 0.05333333333333334, 0.05333333333333334, 0.5)

    Range and traps: leaving tests out of the family makes q too small. Independent or alike tests only.
    Source: Benjamini and Hochberg, Journal of the Royal Statistical Society B 57 (1995) 289.
    """
    chances = series("p_values", p_values)
    for place, chance in enumerate(chances):
        if not 0.0 <= chance <= 1.0:
            raise UnusableInput(f"p_values[{place}]", chance, "a chance from 0 to 1", "Give p-values, not percent.")
    count, least = len(chances), 1.0
    result = [0.0] * count
    for rank, place in sorted(enumerate(sorted(range(count), key=chances.__getitem__), start=1), reverse=True):
        least = min(least, chances[place] * count / rank)
        result[place] = least
    return tuple(result)
