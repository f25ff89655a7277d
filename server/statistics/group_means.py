"""Do benches, welders or cylinders differ in their mean, beyond their own spread?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import fsum, inf

from server.statistics.errors import UnusableInput
from server.statistics.series import series


@dataclass(frozen=True, slots=True)
class GroupMeans:
    """The mean of each group, the ratio F of spread between to spread inside, its p, and what it cannot tell."""

    means: Mapping[str, float]
    ratio: float
    p: float
    between: int
    inside: int
    cannot_tell: tuple[str, ...]


def compare_means(groups: Mapping[str, Sequence[float]]) -> GroupMeans:
    """Compare the means of groups by one-way analysis of variance.

    Equation: F = [Σ n_i (x̄_i − x̄)²/(g − 1)] / [ΣΣ(x − x̄_i)²/(N − g)]; p = P(F' > F).
    Inputs: groups: name -> readings [any one unit].
    Result: GroupMeans; means [the readings' unit], ratio and p [1].
    Example:
        >>> compare_means({"bench 1": [10.0, 11.0, 12.0], "bench 2": [14.0, 15.0, 16.0]}).ratio
        24.0

    Range and traps: two groups or more, like spread in each; equal readings throughout leave nothing to compare.
        It says "associated", never "caused".
    Source: NIST/SEMATECH e-Handbook 7.4.3; figures checked against NIST StRD.
    """
    from scipy.special import fdtrc

    rows = {name: series(name, readings) for name, readings in groups.items()}
    count = sum(len(row) for row in rows.values())
    between, inside = len(rows) - 1, count - len(rows)
    if between < 1 or inside < 1:
        raise UnusableInput("groups", len(rows), "two groups or more, one of them repeated", "Choose more readings.")
    # Taken from one of the readings first: large readings that differ late then keep their digits.
    origin = next(iter(rows.values()))[0]
    shifted = {name: [reading - origin for reading in row] for name, row in rows.items()}
    means = {name: fsum(row) / len(row) for name, row in shifted.items()}
    grand = fsum(reading for row in shifted.values() for reading in row) / count
    apart = fsum(len(row) * (means[name] - grand) ** 2 for name, row in shifted.items())
    within = fsum((reading - means[name]) ** 2 for name, row in shifted.items() for reading in row)
    if apart == 0.0 and within == 0.0:
        raise UnusableInput("groups", origin, "readings that differ", "Nothing varies, so nothing can be compared.")
    ratio = (apart / between) / (within / inside) if within else inf
    caveats = ("Associated, never caused: groups may differ in something else as well.",)
    restored = {name: origin + mean for name, mean in means.items()}
    return GroupMeans(restored, ratio, float(fdtrc(between, inside, ratio)), between, inside, caveats)
