"""Travel and heat input of a pass, with their doubts."""

from datetime import date

import pytest

from server.facts.equipment import Acceptance
from server.facts.figure import Figure
from server.occasions.energy import heat_input_of, travel_of

SEAM = Acceptance(id="A", name="seam_uncertainty", unit="mm", value="1", source="tape", valid_from=date(2030, 1, 1))  # type: ignore[arg-type]
ACCEPT = {"seam_uncertainty": SEAM}


def figure(value: float, u: float | None) -> Figure:
    return Figure(value, u, "counted", "PS", "e")


COUNTED = {"mean_current": figure(37.0, 0.74), "volts": figure(10.1, 0.15), "arc_on": figure(74.3, 0.3)}


def test_travel_is_seam_over_arc_seconds():
    """104 mm in 74.3 s are 84.0 mm/min, with one per cent of doubt from a millimetre of seam and 0.3 s."""
    travel = travel_of(COUNTED, 104.0, ACCEPT)
    assert travel is not None
    assert travel.value == pytest.approx(83.98, abs=0.01)
    assert travel.u == pytest.approx(travel.value * ((1 / 104) ** 2 + (0.3 / 74.3) ** 2) ** 0.5)


def test_heat_input_takes_the_efficiency_of_the_limit():
    """37.0 A at 10.1 V over 104 mm in 74.3 s with 0.6 is 0.16 kJ/mm; the doubts of all four add as squares."""
    heat = heat_input_of(COUNTED, 104.0, 0.6, ACCEPT)
    assert heat is not None
    assert heat.value == pytest.approx(0.160, abs=0.0005)
    shares = (0.02, 0.15 / 10.1, 0.3 / 74.3, 1 / 104)
    assert heat.u == pytest.approx(heat.value * sum(share**2 for share in shares) ** 0.5)


def test_joules_of_a_trace_stand_above_means():
    """Where a trace gives the energy, amps and volts are not asked."""
    heat = heat_input_of({**COUNTED, "arc_energy": figure(60_000.0, 600.0)}, 100.0, 0.6, ACCEPT)
    assert heat is not None
    assert heat.value == pytest.approx(0.36)


def test_one_doubt_unknown_leaves_the_whole_unknown():
    """A counter without an uncertainty on file, or a seam without one, gives a figure nobody knows the doubt of."""
    unsure = {**COUNTED, "volts": figure(10.1, None)}
    assert heat_input_of(unsure, 104.0, 0.6, ACCEPT).u is None  # type: ignore[union-attr]
    assert travel_of(COUNTED, 104.0, {}).u is None  # type: ignore[union-attr]


@pytest.mark.parametrize("gone", ["mean_current", "volts", "arc_on"])
def test_without_one_of_the_three_there_is_no_heat_input(gone: str):
    """Amps, volts and seconds are all needed; an arc of no seconds gives nothing either."""
    left = {name: each for name, each in COUNTED.items() if name != gone}
    assert heat_input_of(left, 104.0, 0.6, ACCEPT) is None
    assert travel_of({"arc_on": figure(0.0, 0.3)}, 104.0, ACCEPT) is None
