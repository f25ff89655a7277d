"""Cut-off points and tails against scipy's own curves."""

import pytest
from scipy import stats

from server.statistics.quantiles import beta_quantile, gamma_quantile, normal_quantile
from server.statistics.tails import binomial_at_least, binomial_at_most, poisson_at_least, poisson_at_most

SHARES = [1e-6, 0.025, 0.5, 0.975, 1 - 1e-6]


@pytest.mark.parametrize("share", SHARES)
def test_quantiles(share: float) -> None:
    """Normal, gamma and beta points cut off the share asked for."""
    assert normal_quantile(share) == pytest.approx(stats.norm.ppf(share), rel=1e-9, abs=1e-12)
    assert gamma_quantile(3.5, share) == pytest.approx(stats.gamma.ppf(share, 3.5), rel=1e-9)
    assert beta_quantile(2.0, 9.0, share) == pytest.approx(stats.beta.ppf(share, 2.0, 9.0), rel=1e-9)


@pytest.mark.parametrize("count", [-1, 0, 1, 5, 20, 21])
def test_tails(count: int) -> None:
    """Chances of so few and of so many are those of scipy, impossible counts included."""
    assert binomial_at_most(min(count, 20), 20, 0.2) == pytest.approx(stats.binom.cdf(min(count, 20), 20, 0.2))
    assert binomial_at_least(count, 20, 0.2) == pytest.approx(stats.binom.sf(count - 1, 20, 0.2), rel=1e-9)
    assert poisson_at_most(count, 3.0) == pytest.approx(stats.poisson.cdf(count, 3.0))
    assert poisson_at_least(count, 3.0) == pytest.approx(stats.poisson.sf(count - 1, 3.0), rel=1e-9)
