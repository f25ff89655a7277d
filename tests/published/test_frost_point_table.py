"""A printed table of frost points against parts per million by volume at one atmosphere (read on such a page)."""

import pytest

from server.physics.dew_point import dew_point_c, water_ppmv

PRINTED = [(-40.0, 126.8), (-50.0, 38.89), (-56.0, 18.16), (-60.0, 10.68), (-70.0, 2.584), (-76.0, 1.03)]


@pytest.mark.parametrize(("dew_c", "ppmv"), PRINTED)
def test_water_at_a_frost_point(dew_c, ppmv):
    """The water content at each printed frost point is the printed one to half a per cent."""
    assert water_ppmv(dew_c) == pytest.approx(ppmv, rel=5e-3)


@pytest.mark.parametrize(("dew_c", "ppmv"), PRINTED)
def test_frost_point_of_a_water_content(dew_c, ppmv):
    """The frost point of each printed water content is the printed one to a twentieth of a degree."""
    assert dew_point_c(ppmv) == pytest.approx(dew_c, abs=0.05)
