"""The chances of counts at least as far out as those seen, from scipy.special."""

from __future__ import annotations


def binomial_at_most(faults: int, seen: int, rate: float) -> float:
    """The chance of `faults` or fewer among `seen` when each has the chance `rate`."""
    from scipy.special import bdtr

    return float(bdtr(faults, seen, rate)) if faults >= 0 else 0.0


def binomial_at_least(faults: int, seen: int, rate: float) -> float:
    """The chance of `faults` or more among `seen`, without the loss of taking it from one."""
    from scipy.special import bdtrc

    if faults <= 0:
        return 1.0
    return float(bdtrc(faults - 1, seen, rate)) if faults <= seen else 0.0


def poisson_at_most(count: int, mean: float) -> float:
    """The chance of `count` or fewer when `mean` are expected."""
    from scipy.special import pdtr

    return float(pdtr(count, mean)) if count >= 0 else 0.0


def poisson_at_least(count: int, mean: float) -> float:
    """The chance of `count` or more, without the loss of taking it from one."""
    from scipy.special import pdtrc

    return float(pdtrc(count - 1, mean)) if count > 0 else 1.0
