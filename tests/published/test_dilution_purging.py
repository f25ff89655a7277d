"""Dilution purging, from a published sheet whose chart reads 3.1 volume changes from 21 % to 1 % oxygen (read)."""

import pytest

from server.physics.purge_single import OneVolume, purge_changes


def test_from_air_to_one_per_cent():
    """From 21 % to 1 % takes ln 21 = 3.0445 volume changes; the chart reads 3.1."""
    changes = purge_changes(OneVolume(1.0, 1.0, start_ppm=210_000.0), 10_000.0)
    assert changes == pytest.approx(3.0445, abs=1e-3)
    assert changes == pytest.approx(3.1, abs=0.06)
