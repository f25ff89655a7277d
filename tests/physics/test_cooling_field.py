"""Temperature round a tube against an independent solver, and of a flat wall against the textbook's moving source."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import k0e

from server.physics.cooling_field import LaidBead, rise_k
from server.physics.cooling_metal import TITANIUM_TUBE, TubeMetal
from tests.physics.tube_by_differences import DifferenceTube

AROUND_MM = math.pi * 34.0
LAP = LaidBead(0.0, AROUND_MM, 0.0, travel_mm_per_s=2.0, heat_input_j_per_mm=100.0)


def torch(beads):
    """Power and place of the arc at a time, for beads laid one after the other."""

    def at(now_s):
        for bead in beads:
            if bead.begin_s <= now_s < bead.end_s:
                way = math.copysign(bead.travel_mm_per_s, bead.end_mm - bead.start_mm)
                place_mm = bead.start_mm + way * (now_s - bead.begin_s)
                return bead.heat_input_j_per_mm * bead.travel_mm_per_s, place_mm % AROUND_MM
        return 0.0, 0.0

    return at


@pytest.mark.parametrize("loss", [0.0, 35.0])
def test_a_lap_round_a_tube_as_by_differences(loss):
    """During a lap and after it, the ring solution is within 1 % of the independent solver at every place asked."""
    metal = TubeMetal(15.0, 2.9e6, loss)
    tube = DifferenceTube(0.9, AROUND_MM, 15.0, 2.9e6, loss)
    for at_s, places in ((30.0, [15.0, 30.0, 45.0]), (50.0, [4.0, 50.0, 85.0]), (65.0, [10.0, 50.0, 95.0])):
        tube.run(at_s, torch([LAP]))
        ours = rise_k([LAP], np.array(places), tube.at_s, 0.9, AROUND_MM, metal)
        assert ours.tolist() == pytest.approx(tube.seam(places), rel=0.01)


def test_quarters_with_pauses_as_by_differences():
    """Two quarters on opposite sides, one laid backward, with a pause between: within 1 % of the solver."""
    quarter = AROUND_MM / 4.0
    beads = [LaidBead(0.0, quarter, 0.0, 2.0, 100.0), LaidBead(3.0 * quarter, 2.0 * quarter, 23.0, 2.0, 80.0)]
    tube = DifferenceTube(0.9, AROUND_MM, 15.0, 2.9e6, 50.0)
    tube.run(45.0, torch(beads))
    places = [5.0, 20.0, 40.0, 60.0, 80.0, 100.0]
    ours = rise_k(beads, np.array(places), tube.at_s, 0.9, AROUND_MM, TITANIUM_TUBE)
    assert ours.tolist() == pytest.approx(tube.seam(places), rel=0.01, abs=1.0)


@pytest.mark.parametrize("loss", [0.0, 50.0])
def test_a_long_bead_in_a_flat_wall_as_the_textbook(loss):
    """Behind a bead that has run long, the rise is Rosenthal's for a thin wall, with and without loss, to 0.5 %."""
    metal, wall, speed, power = TubeMetal(15.0, 2.9e6, loss), 0.9e-3, 2e-3, 200.0
    long_bead = LaidBead(0.0, 3000.0, 0.0, 2.0, 100.0)
    behind_mm = np.array([5.0, 10.0, 20.0, 40.0])
    ours = rise_k([long_bead], 3000.0 - behind_mm, 1500.0, 0.9, None, metal)
    half = speed / 2.0 / metal.spreads_m2_per_s
    far = np.sqrt(half**2 + loss / (15.0 * wall))
    away = behind_mm * 1e-3
    textbook = power / (2.0 * np.pi * 15.0 * wall) * np.exp((half - far) * away) * k0e(far * away)
    assert ours.tolist() == pytest.approx(textbook.tolist(), rel=5e-3)


@given(st.floats(0.0, AROUND_MM), st.floats(0.0, 200.0), st.floats(0.0, AROUND_MM))
def test_round_the_tube_is_nowhere_special(place, at_s, turn):
    """Turning bead and place round the tube together changes nothing, nor does going once round."""
    moved = LaidBead(LAP.start_mm + turn, LAP.end_mm + turn, 0.0, 2.0, 100.0)
    places = np.array([place]), np.array([place + turn]), np.array([place + AROUND_MM])
    here = rise_k([LAP], places[0], at_s, 0.9, AROUND_MM, TITANIUM_TUBE)
    assert rise_k([moved], places[1], at_s, 0.9, AROUND_MM, TITANIUM_TUBE) == pytest.approx(here, rel=1e-6, abs=1e-9)
    assert rise_k([LAP], places[2], at_s, 0.9, AROUND_MM, TITANIUM_TUBE) == pytest.approx(here, rel=1e-6, abs=1e-9)


def test_heat_adds_up():
    """The rise of two beads is the sum of each alone, and twice the heat is twice the rise."""
    other = LaidBead(20.0, 60.0, 5.0, 2.0, 50.0)
    places = np.array([5.0, 50.0, 90.0])
    alone = [rise_k([bead], places, 70.0, 0.9, AROUND_MM, TITANIUM_TUBE) for bead in (LAP, other)]
    assert rise_k([LAP, other], places, 70.0, 0.9, AROUND_MM, TITANIUM_TUBE) == pytest.approx(sum(alone))
    double = LaidBead(20.0, 60.0, 5.0, 2.0, 100.0)
    assert rise_k([double], places, 70.0, 0.9, AROUND_MM, TITANIUM_TUBE) == pytest.approx(2.0 * alone[1])


def test_before_the_arc_there_is_no_heat():
    """A bead that has not begun heats nothing."""
    assert rise_k([LaidBead(0.0, 20.0, 10.0, 2.0, 100.0)], np.array([5.0]), 10.0, 0.9, None, TITANIUM_TUBE) == 0.0


def test_all_heat_is_kept_without_loss():
    """Long after a bead, without loss, the rise is its heat spread over the ring and along the tube."""
    metal, at_s, around = TubeMetal(15.0, 2.9e6, 0.0), 2000.0, AROUND_MM * 1e-3
    bead = LaidBead(0.0, 20.0, 0.0, 2.0, 100.0)
    along = math.sqrt(4.0 * math.pi * metal.spreads_m2_per_s * (at_s - 5.0))
    spread = 100.0 * 20.0 / (2.9e6 * 0.9e-3 * around * along)
    assert rise_k([bead], np.array([50.0]), at_s, 0.9, AROUND_MM, metal)[0] == pytest.approx(spread, rel=1e-3)
