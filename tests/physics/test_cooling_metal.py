"""The metal's figures and the band they leave open."""

import math

import pytest

from server.physics.cooling_metal import TITANIUM_TUBE, TubeMetal, over_metals
from server.physics.errors import UnusableInput


def test_the_band_spans_all_metals():
    """The band runs over low and high conductivity and loss, with the expected metal inside."""
    band = over_metals(lambda metal: metal.gives_off_w_per_m2_k / metal.conducts_w_per_m_k)
    assert band == (35.0 / 19.0, 50.0 / 15.0, 80.0 / 11.0)
    assert TITANIUM_TUBE.spreads_m2_per_s == pytest.approx(15.0 / 2.9e6)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: TubeMetal(conducts_w_per_m_k=0.0), "conducts_w_per_m_k"),
        (lambda: TubeMetal(stores_j_per_m3_k=math.nan), "stores_j_per_m3_k"),
    ],
)
def test_what_cannot_be_is_named(call, named):
    """Metal that conducts nothing, or stores what is no number, is refused by name."""
    with pytest.raises(UnusableInput, match=named):
        call()
