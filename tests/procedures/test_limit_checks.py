"""What can be wrong with one limit, each said with its line and what to write."""

import pytest

from tests.procedures.ladder import refused

OXYGEN = 'oxygen = { high = 0.003, unit = "%"'
SLIPS = [
    ({OXYGEN: 'oxigen = { high = 0.003, unit = "%"'}, 14, "limits.oxigen", "Write oxygen"),
    ({OXYGEN: 'oxygen = { high = 0.003, unit = "psi"'}, 14, "limits.oxygen.unit", 'unit = "ppm"'),
    ({OXYGEN: "oxygen = { high = 0.003"}, 14, "limits.oxygen.unit", 'unit = "ppm"'),
    ({OXYGEN: 'oxygen = { unit = "%"'}, 14, "limits.oxygen", "Add it"),
    ({OXYGEN: 'oxygen = { high = -1, unit = "%"'}, 14, "limits.oxygen.high", "Mend the value"),
    ({"low = 60, high = 90": "low = 90, high = 60"}, 18, "limits.peak_current.low", "Change the ends"),
    ({"low = 60, high = 90": "low = -60, high = 90"}, 18, "limits.peak_current.low", "Mend the value"),
    ({", k = 1,": ","}, 19, "limits.heat_input.k", "k = 0.6"),
    ({'side = "inside", ': ""}, 22, "limits.colour[2].side", "side ="),
    ({'side = "outside", zone = "bead", ': 'side = "outside", '}, 21, "limits.colour[1].zone", "zone ="),
    ({'zone = "bead", high = 1,': 'zone = "bead", high = 9,'}, 21, "limits.colour[1].high", "Mend the value"),
    ({'side = "inside"': 'side = "outside"'}, 22, "limits.colour[2]", "Take one out"),
    ({OXYGEN: OXYGEN + ", valid_from = 2030-01-01"}, 14, "limits.oxygen.valid_from", "Take valid_from out"),
    ({OXYGEN: OXYGEN + ', joint_kinds = ["rung"]'}, 14, "limits.oxygen.joint_kinds", "Mend the name"),
    ({"rod = { allowed = [1.1], ": "gas = { high = 1, "}, 17, "limits.gas.unit", "Take the unit out"),
    ({'rod = { allowed = [1.1], unit = "mm"': "gas = { high = 1"}, 17, "limits.gas", "allowed"),
]


@pytest.mark.parametrize(("changes", "line", "field", "instead"), SLIPS)
def test_each_slip_is_said_with_its_line(changes: dict[str, str], line: int, field: str, instead: str) -> None:
    """One slip, one complaint: the line, the field, what to write."""
    (found,) = refused(changes)
    assert (found.line, found.field) == (line, field)
    assert instead in found.instead


def test_a_wrong_unit_is_answered_with_the_usual_ones() -> None:
    """Who writes psi for oxygen reads that ppm and % would do."""
    (found,) = refused({OXYGEN: 'oxygen = { high = 0.003, unit = "psi"'})
    assert found.value == "'psi'"
    assert found.expected == "a unit of purge oxygen at arc start: ppm, %"


def test_negative_amps_name_the_possible_range() -> None:
    """A current below zero is answered with what a current can be."""
    (found,) = refused({"low = 60, high = 90": "low = -60, high = 90"})
    assert (found.value, found.expected) == ("-60", "peak current between 0 and 1000 A")


def test_several_slips_are_said_at_once() -> None:
    """A unit, a name and a missing word on three lines give three complaints."""
    found = refused({OXYGEN: 'oxigen = { high = 1, unit = "%"', '"CFH"': '"furlong"', ", k = 1,": ","})
    assert [c.line for c in found] == [14, 15, 19]
