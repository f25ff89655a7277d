"""Quantities as a shop writes them, read into the one unit a formula wants, and shown again in the shop's own."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Any

from server.physics.errors import UnusableInput
from server.physics.inputs import finite
from server.physics.unit_words import spell_unit

if TYPE_CHECKING:
    from pint import UnitRegistry

_QUANTITY = re.compile(
    r"\s*(?P<sign>[-+−]?)\s*"
    r"(?:(?P<whole>\d{1,6})[\s-]+)?(?P<over>\d{1,6})/(?P<under>[1-9]\d{0,5})(?=[\s\"a-zA-Z])(?P<unit_a>.*)"
    r"|\s*(?P<number>[-+−]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d{1,3})?)(?![\d.,])(?P<unit_b>.*)",
    re.DOTALL,
)


def read_quantity(field: str, written: str, unit: str) -> float:
    """The number of a written quantity in the unit that a formula wants.

    Equation: exact conversion factors; temperatures with their offsets.
    Inputs: field, its name for the error; written, a number and its unit as a shop writes them, such as `20 ft3/h`,
        `800 °F`, `2-7/8 in`; unit, the unit wanted, such as `L/min`. A difference of temperatures is `delta_degC`.
    Result: number [unit].
    Example:
        >>> round(read_quantity("torch_flow", "20 cfh", "L/min"), 2)
        9.44
        >>> round(read_quantity("dew_point", "-76 °F", "degC"), 1)
        -60.0

    Range and traps: A number without its unit is refused, as −76 may be °C or °F, a factor of ten in moisture. So is a
        decimal comma, which may part thousands. Flows are taken at the gas's own pressure and temperature.
    Source: the conversion factors of the units library, from CODATA and NIST SP 811.
    """
    number, given = _split(field, written, unit)
    return convert_unit(number, given, unit, field)


def convert_unit(number: float, given: str, wanted: str, field: str = "quantity") -> float:
    """A number carried from one unit to another of the same kind.

    Equation: exact conversion factors; temperatures with their offsets.
    Inputs: number [given]; given and wanted, units as a shop writes them; field, its name for the error.
    Result: number [wanted].
    Example:
        >>> round(convert_unit(0.24, "kJ/mm", "kJ/in"), 3)
        6.096

    Range and traps: A unit of another kind, a flow for a speed say, is refused by name.
    Source: the conversion factors of the units library, from CODATA and NIST SP 811.
    """
    units = _registry()
    target = _unit(field, wanted, None)
    from_unit = _unit(field, given, _temperature(wanted))
    if not units.is_compatible_with(from_unit, target):
        remedy = f"Write it in a unit that measures the same thing as {wanted}."
        raise UnusableInput(field, f"{number:g} {given}", f"a quantity in {wanted} or alike", remedy)
    return float(units.Quantity(finite(field, number), from_unit).to(target).magnitude)


def _split(field: str, written: str, unit: str) -> tuple[float, str]:
    parts = _QUANTITY.fullmatch(written)
    if parts is None:
        remedy = "Write a number with a decimal point, then its unit."
        raise UnusableInput(field, written, f"a number and a unit, such as 12.5 {unit}", remedy)
    given = (parts["unit_a"] or parts["unit_b"] or "").strip()
    if not given:
        raise UnusableInput(field, written, f"a unit after the number, such as 12.5 {unit}", "Add the unit.")
    return _number(parts), given


def _number(parts: re.Match[str]) -> float:
    if parts["number"] is not None:
        return float(parts["number"].replace("−", "-"))
    amount = int(parts["whole"] or 0) + Fraction(int(parts["over"]), int(parts["under"]))
    return float(-amount if parts["sign"] in {"-", "−"} else amount)


def _unit(field: str, written: str, for_temperature: str | None) -> Any:
    from pint.errors import UndefinedUnitError

    spelled = spell_unit(written, for_temperature) if len(written) <= 40 else None
    try:
        return _registry().parse_units(spelled) if spelled else _unknown(field, written)
    except UndefinedUnitError:
        return _unknown(field, written)


def _unknown(field: str, written: str) -> Any:
    remedy = "Write it in full, such as millimetre, or by its usual sign, such as mm."
    raise UnusableInput(field, written, "a unit that is known", remedy)


def _temperature(wanted: str) -> str | None:
    if wanted.startswith("delta_"):
        return "delta_"
    return "" if spell_unit(wanted, "") in {"degC", "degF", "kelvin", "K"} else None


@cache
def _registry() -> UnitRegistry[Any]:
    """The units library, loaded when the first quantity is read because it costs half a second."""
    from pint import UnitRegistry

    return UnitRegistry(autoconvert_offset_to_baseunit=False)
