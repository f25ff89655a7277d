"""Sweep-through purging of a vessel, Crowl & Louvar, Chemical Process Safety; FROM MEMORY: printed as 2830 ft³."""

import pytest

from server.physics.purge_single import OneVolume, purge_changes


def test_sweep_through_a_thousand_cubic_feet():
    """From memory: 1000 ft³ from 21 % to 1.25 % oxygen with nitrogen of 0.01 % takes 2830 ft³."""
    vessel = OneVolume(1000.0, 1.0, gas_oxygen_ppm=100.0, start_ppm=210_000.0)
    assert 1000.0 * purge_changes(vessel, 12_500.0) == pytest.approx(2830.0, abs=2.0)
