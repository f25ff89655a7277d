"""One purged volume against small steps in time, its floor, and the time to a target."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.physics.errors import UnusableInput
from server.physics.purge_single import AIR_OXYGEN_PPM, OneVolume, purge_changes, purge_floor_ppm, purge_oxygen_ppm

PURGES = st.builds(
    OneVolume,
    volume_l=st.floats(0.05, 10.0),
    gas_l_per_min=st.floats(0.5, 30.0),
    gas_oxygen_ppm=st.floats(0.0, 100.0),
    leak_ml_per_min=st.floats(0.0, 50.0),
)


def test_against_small_steps():
    """A hundred thousand small exchanges of gas lead to the same oxygen."""
    purge = OneVolume(2.0, 10.0, gas_oxygen_ppm=5.0, leak_ml_per_min=3.0)
    oxygen, step_s = AIR_OXYGEN_PPM, 90.0 / 100_000
    for _ in range(100_000):
        gain = 10.0 * 5.0 + 0.003 * AIR_OXYGEN_PPM - 10.003 * oxygen
        oxygen += gain / 2.0 / 60.0 * step_s
    assert purge_oxygen_ppm(purge, 90.0) == pytest.approx(oxygen, rel=2e-3)


@given(PURGES, st.floats(0.0, 36_000.0))
def test_never_under_the_floor(purge, after_s):
    """Oxygen falls from air and never goes under the floor, nor the floor under the gas."""
    oxygen = purge_oxygen_ppm(purge, after_s)
    assert purge.gas_oxygen_ppm <= purge_floor_ppm(purge) * (1 + 1e-12) + 1e-9
    assert purge_floor_ppm(purge) * (1 - 1e-12) <= oxygen <= AIR_OXYGEN_PPM * (1 + 1e-12)


@given(PURGES, st.floats(1.0, 1e5))
def test_the_time_to_a_target_leads_there(purge, above_ppm):
    """After the volume changes that a target takes, the oxygen is the target."""
    target = purge_floor_ppm(purge) + above_ppm
    seconds = purge_changes(purge, target) / purge.changes_per_s
    assert purge_oxygen_ppm(purge, seconds) == pytest.approx(target, rel=1e-6)


def test_met_from_the_start():
    """A target above what the volume starts with takes no change of volume."""
    assert purge_changes(OneVolume(2.0, 10.0, start_ppm=15.0), 20.0) == 0.0


def test_a_target_under_the_floor_is_never_met():
    """A target at the floor is refused, with the floor and what to do about it."""
    with pytest.raises(UnusableInput, match=r"target_ppm is 5.0; expected more than the floor of 5 ppm.*Never reached"):
        purge_changes(OneVolume(2.0, 10.0, gas_oxygen_ppm=5.0), 5.0)


@pytest.mark.parametrize(
    ("numbers", "named"),
    [
        ((0.0, 10.0), "volume_l"),
        ((2.0, 0.0), "gas_l_per_min"),
        ((2.0, math.nan), "gas_l_per_min"),
        ((2.0, 10.0, -1.0), "gas_oxygen_ppm"),
        ((2.0, 10.0, 0.0, -1.0), "leak_ml_per_min"),
        ((2.0, 10.0, 0.0, 0.0, 2e6), "start_ppm"),
    ],
)
def test_purges_that_cannot_be_are_named(numbers, named):
    """No volume, no flow, oxygen or a leak below zero: each is refused by name when the purge is described."""
    with pytest.raises(UnusableInput, match=named):
        OneVolume(*numbers)
