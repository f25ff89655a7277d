"""Share of oxygen in dry air, U.S. Standard Atmosphere 1976; FROM MEMORY: 20.9476 % by volume."""

import pytest

from server.physics.purge_single import OneVolume, purge_oxygen_ppm


def test_a_tube_begins_full_of_air():
    """From memory: before any gas flows, a tube holds 209 476 ppm of oxygen, to a tenth of a per cent."""
    assert purge_oxygen_ppm(OneVolume(1.0, 10.0), 0.0) == pytest.approx(209_476.0, rel=1e-3)
