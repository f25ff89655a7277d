"""The chances of counts and ratios at least as far out as those seen, from scipy.special."""

from __future__ import annotations


def binomial_at_most(faults: int, seen: int, rate: float) -> float:
    """The chance of `faults` or fewer among `seen` when each has the chance `rate`."""
    from scipy.special import bdtr

    return float(bdtr(faults, seen, rate)) if faults >= 0 else 0.0


def poisson_at_most(count: int, mean: float) -> float:
    """The chance of `count` or fewer when `mean` are expected."""
    from scipy.special import pdtr

    return float(pdtr(count, mean)) if count >= 0 else 0.0


def f_above(ratio: float, between: int, inside: int) -> float:
    """The chance of a variance ratio above `ratio` with the two degrees of freedom."""
    from scipy.special import fdtrc

    return float(fdtrc(between, inside, ratio))
