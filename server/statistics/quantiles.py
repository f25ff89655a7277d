"""The points that cut off a given share of a distribution, from the standard library and scipy.special."""

from __future__ import annotations

from statistics import NormalDist


def normal_quantile(share: float) -> float:
    """The standard normal deviate with `share` of the curve below it."""
    return NormalDist().inv_cdf(share)


def gamma_quantile(shape: float, share: float) -> float:
    """The point of the unit-scale gamma curve with `share` below it; half a chi-square of 2·shape degrees."""
    from scipy.special import gammaincinv

    return float(gammaincinv(shape, share))


def beta_quantile(first: float, second: float, share: float) -> float:
    """The point of the beta curve with `share` below it."""
    from scipy.special import betaincinv

    return float(betaincinv(first, second, share))
