"""The shock absorbers of Meeker and Escobar, Statistical Methods for Reliability Data, as fitted in the README of a
public R package (read). One public copy of the data has 18420 where 18450 is right."""

import pytest

from server.statistics.weibull import WeibullFit, weibull_fit

KILOMETRES = [
    6700, 6950, 7820, 8790, 9120, 9660, 9820, 11310, 11690, 11850, 11880, 12140, 12200, 12870, 13150, 13330, 13470,
    14040, 14300, 17520, 17540, 17890, 18450, 18960, 18980, 19410, 20100, 20100, 20150, 20320, 20900, 22700, 23490,
    26510, 27410, 27490, 27890, 28100,
]  # fmt: skip
FAILED_AT = {6700, 9120, 12200, 13150, 14300, 17520, 20900, 22700, 26510, 27490}


@pytest.fixture(name="fit", scope="module")
def _fit() -> WeibullFit:
    failed = [km in FAILED_AT for km in KILOMETRES]
    # Of the two units at 20,100 km the first failed.
    failed[KILOMETRES.index(20100)] = True
    return weibull_fit(KILOMETRES, failed)


def test_counts(fit: WeibullFit) -> None:
    """38 units, 11 failures."""
    assert (fit.count, fit.failures) == (38, 11)


def test_scale(fit: WeibullFit) -> None:
    """Scale 27718.72, standard error 3046.02, from 22347.77 to 34380.49."""
    assert fit.scale.estimate == pytest.approx(27718.72, abs=0.6)
    assert fit.scale_error == pytest.approx(3046.02, abs=0.6)
    assert fit.scale.low == pytest.approx(22347.77, abs=0.6)
    assert fit.scale.high == pytest.approx(34380.49, abs=0.6)


def test_shape(fit: WeibullFit) -> None:
    """Shape 3.16, standard error .73, from 2.01 to 4.97."""
    assert fit.shape.estimate == pytest.approx(3.16, abs=0.005)
    assert fit.shape_error == pytest.approx(0.73, abs=0.005)
    assert fit.shape.low == pytest.approx(2.01, abs=0.005)
    assert fit.shape.high == pytest.approx(4.97, abs=0.005)
