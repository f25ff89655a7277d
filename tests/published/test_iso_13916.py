"""ISO 13916, measurement of preheating, interpass and preheat-maintenance temperature (read in a copy).

Printed: measure at A = 4 t from the groove's edge, at most 50 mm, for t up to 50 mm; at 75 mm above.
"""

import pytest

from server.physics.interpass import measuring_distance_mm


@pytest.mark.parametrize(("wall", "distance"), [(1.6, 6.4), (15.0, 50.0), (50.0, 50.0), (51.0, 75.0)])
def test_where_to_measure(wall, distance):
    """Walls of 1.6, 15, 50 and 51 mm are measured at 6.4, 50, 50 and 75 mm."""
    assert measuring_distance_mm(wall) == pytest.approx(distance)
