"""Quantities as a shop writes them, read into one unit and carried back."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.physics.errors import UnusableInput
from server.physics.units import convert_unit, read_quantity

KINDS = [
    ("L/min", "ft3/h", "cfh", "m³/h", "ml/s", "lpm", "cubic_foot/hour"),
    ("mm", "in", "thou", "mil", "µm", "m", '"'),
    ("mm/min", "ipm", "in/min", "mm/s", "inch per minute"),
    ("J/mm", "kJ/mm", "kJ/in", "J/in"),
    ("kPa", "psi", "bar", "mbar", "Pa"),
    ("degC", "degF", "kelvin"),
    ("delta_degC", "delta_degF"),
    ("ppm", "%", "ppmv"),
    ("A", "amps", "mA", "kA"),
    ("V", "volts", "mV"),
    ("g", "kg", "lb", "oz"),
    ("g/cm3", "kg/m^3", "lb/in**3"),
]
PAIRS = [(kind[0], other) for kind in KINDS for other in kind[1:]]
NUMBERS = st.floats(-1e6, 1e6)


@pytest.mark.parametrize(("unit", "other"), PAIRS)
@given(number=NUMBERS)
def test_out_and_back(unit, other, number):
    """A number carried into another unit of its kind and back is the number it was."""
    there = convert_unit(number, unit, other)
    assert convert_unit(there, other, unit) == pytest.approx(number, rel=1e-9, abs=1e-6)


@given(NUMBERS, st.sampled_from([unit for kind in KINDS for unit in kind]))
def test_written_and_read(number, unit):
    """A number written with its unit is read back as it was, minus sign of either kind included."""
    for written in (
        f"{number!r} {unit}",
        f"{number!r}{unit}".replace("-", "−", 1) if number < 0 else f" {number!r} {unit} ",
    ):
        assert read_quantity("x", written, unit) == pytest.approx(number, rel=1e-12, abs=1e-12)


def outcome(field, text, unit) -> str:
    """`a number` for a finite one, else the field that the error names."""
    try:
        return "a number" if math.isfinite(read_quantity(field, text, unit)) else "no number"
    except UnusableInput as refused:
        return refused.field


@given(st.text(max_size=60))
def test_any_text_gives_a_number_or_a_named_error(text):
    """Whatever is typed, the answer is a finite number or an error that names the field."""
    assert outcome("torch_flow", text, "L/min") in {"a number", "torch_flow"}


@given(
    st.sampled_from(["5", "-3.2", "1/16", "2-7/8"]),
    st.lists(st.sampled_from([*"/*^23 ()%°", "mm", "in", "h", "if", "for", "degC", "foo", "per"]), max_size=8).map(
        "".join
    ),
)
def test_any_unit_gives_a_number_or_a_named_error(number, unit):
    """Whatever stands in place of a unit, nothing but the named error comes back."""
    assert outcome("length", number + unit, "mm") in {"a number", "length"}


@pytest.mark.parametrize(
    ("written", "unit", "number"),
    [
        ("20 ft3/h", "L/min", 9.438948864),
        ("20 CFH", "L/min", 9.438948864),
        ("1/16 in", "mm", 1.5875),
        ("2-7/8 in", "mm", 73.025),
        ('2 7/8"', "mm", 73.025),
        ("-1/2 in", "mm", -12.7),
        (".5 mm", "mm", 0.5),
        ("35 thou", "mm", 0.889),
        ("800 F", "degC", 426.6667),
        ("−60 °C", "degC", -60.0),
        ("300 K", "degC", 26.85),
        ("90 °F", "delta_degC", 50.0),
        ("100 mm per min", "mm/min", 100.0),
        ("0.01 %", "ppm", 100.0),
        ("1e3 Pa", "kPa", 1.0),
        ("5 C", "A s", 5.0),
    ],
)
def test_as_a_shop_writes_it(written, unit, number):
    """Cubic feet an hour, fractions of an inch, thou, degrees by letter, per cent and powers of ten are all read."""
    assert read_quantity("x", written, unit) == pytest.approx(number, rel=1e-6)


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("", "a number and a unit, such as 12.5 L/min"),
        ("twenty cfh", "a number and a unit"),
        ("20", "a unit after the number"),
        ("9,4 L/min", "decimal point"),
        ("1,000 cfh", "decimal point"),
        ("20 glugs", "a unit that is known"),
        ("20 L/min/", "a unit that is known"),
        ("20 " + "L" * 41, "a unit that is known"),
        ("20 L^9/min", "a unit that is known"),
        ("20 bar", "a quantity in L/min or alike"),
        ("nan L/min", "a number and a unit"),
        ("1e999 L/min", "a finite number"),
    ],
)
def test_what_cannot_be_read_is_named(written, said):
    """A missing number, a missing or strange unit, a comma and a unit of another kind each say what would do."""
    with pytest.raises(UnusableInput, match=said) as refused:
        read_quantity("torch flow", written, "L/min")
    assert refused.value.field == "torch flow"
