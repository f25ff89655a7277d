"""The shop's own units turned into the sealed ones."""

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from server.procedures.units import WRITTEN, WrongUnit, to_sealed, usual_units

# Factors by definition of the inch (25.4 mm) and the cubic foot (28.316846592 L), and of the two temperature scales.
ORACLE: pint.UnitRegistry[float] = pint.UnitRegistry()
KNOWN = [
    (20, "CFH", "L/min", 20 * 28.316846592 / 60),
    (42, "ft³/h", "L/min", 42 * 28.316846592 / 60),
    (0.035, "in", "mm", 0.035 * 25.4),
    (6, "in/min", "mm/min", 6 * 25.4),
    (25.4, "kJ/in", "kJ/mm", 1.0),
    (-58, "°F", "°C", -50.0),
    (149, "F", "°C", 65.0),
    (0.002, "%", "ppm", 20.0),
    (5, "min", "s", 300.0),
]


@pytest.mark.parametrize(("value", "unit", "sealed", "expected"), KNOWN)
def test_known_conversions(value: float, unit: str, sealed: str, expected: float) -> None:
    """Each unit a shop writes means what its definition says."""
    assert to_sealed(value, unit, sealed) == pytest.approx(expected, rel=1e-8)


@pytest.mark.parametrize(("unit", "sealed"), [("psi", "ppm"), ("°F", "ppm"), ("", "A"), ("ppm", "grade"), ("A", "")])
def test_a_unit_that_measures_something_else_is_refused_with_those_that_do(unit: str, sealed: str) -> None:
    """An unknown unit, one of another kind and a missing one are refused, naming the usual ones."""
    with pytest.raises(WrongUnit) as wrong:
        to_sealed(1.0, unit, sealed)
    assert wrong.value.usual == usual_units(sealed)
    assert sealed in wrong.value.usual


def test_a_value_in_the_sealed_unit_is_left_as_it_is() -> None:
    """No library rounds what needs no turning, not even in a unit only this trade has."""
    assert to_sealed(0.1 + 0.2, "L/min", "L/min") == 0.1 + 0.2
    assert to_sealed(3, "grade", "grade") == 3


def test_usual_units_are_of_one_kind() -> None:
    """The sealed unit comes first, and temperature is not offered for a flow."""
    assert usual_units("L/min")[0] == "L/min"
    assert "CFH" in usual_units("L/min")
    assert "°F" not in usual_units("L/min")


@settings(max_examples=25, deadline=None)
@given(st.floats(0.001, 10_000), st.sampled_from(sorted(set(WRITTEN) - {"°C", "C", "°F", "F", "K"})))
def test_turning_there_and_back_gives_the_value_again(value: float, unit: str) -> None:
    """Every unit round-trips through every sealed unit of its kind."""
    for sealed in usual_units(unit):
        assert to_sealed(to_sealed(value, unit, sealed), sealed, unit) == pytest.approx(value, rel=1e-7)


@settings(max_examples=25, deadline=None)
@given(st.floats(-200, 2000))
def test_fahrenheit_agrees_with_the_library(value: float) -> None:
    """Temperatures are turned as scales with their own zero, not by a factor."""
    oracle: float = ORACLE.Quantity(value, "degF").to("degC").magnitude
    assert to_sealed(value, "°F", "°C") == pytest.approx(oracle, abs=1e-5)
