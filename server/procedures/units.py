"""The units a shop may write in its procedures, turned into the unit a quantity is sealed in."""

from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pint

WRITTEN: dict[str, str] = {
    "A": "ampere",
    "mA": "milliampere",
    "V": "volt",
    "Hz": "hertz",
    "pulses/s": "hertz",
    "s": "second",
    "min": "minute",
    "h": "hour",
    "mm": "millimeter",
    "cm": "centimeter",
    "in": "inch",
    "thou": "thou",
    "mm/min": "millimeter/minute",
    "mm/s": "millimeter/second",
    "cm/min": "centimeter/minute",
    "in/min": "inch/minute",
    "ipm": "inch/minute",
    "kJ/mm": "kilojoule/millimeter",
    "J/mm": "joule/millimeter",
    "kJ/cm": "kilojoule/centimeter",
    "kJ/in": "kilojoule/inch",
    "J/in": "joule/inch",
    "L/min": "liter/minute",
    "l/min": "liter/minute",
    "CFH": "foot**3/hour",
    "cfh": "foot**3/hour",
    "ft3/h": "foot**3/hour",
    "ft³/h": "foot**3/hour",
    "°C": "degree_Celsius",
    "C": "degree_Celsius",
    "°F": "degree_Fahrenheit",
    "F": "degree_Fahrenheit",
    "K": "kelvin",
    "ppm": "ppm",
    "%": "percent",
}
"""What a shop writes, and what the units library calls it."""

_DIGITS = 9


class WrongUnit(ValueError):
    """A unit that does not measure the thing; `usual` lists those that do."""

    def __init__(self, unit: str, sealed: str) -> None:
        """Say which unit was met and which would do."""
        self.usual = usual_units(sealed)
        super().__init__(f"{unit!r} is no unit of this; usual: {', '.join(self.usual)}")


def to_sealed(value: float, unit: str, sealed: str) -> float:
    """Turn a value from the shop's unit into the sealed one.

    >>> round(to_sealed(20, "CFH", "L/min"), 2)
    9.44
    >>> to_sealed(149, "°F", "°C")
    65.0
    """
    if unit == sealed:
        return value
    if unit not in WRITTEN or sealed not in WRITTEN or not _same_kind(unit, sealed):
        raise WrongUnit(unit, sealed)
    turned = _registry().Quantity(value, WRITTEN[unit]).to(WRITTEN[sealed]).magnitude
    return float(f"{turned:.{_DIGITS}g}")


def usual_units(sealed: str) -> tuple[str, ...]:
    """Every unit a quantity may be written in, the sealed one first.

    >>> usual_units("ppm")
    ('ppm', '%')
    """
    if sealed not in WRITTEN:
        return (sealed,)
    return (sealed, *(unit for unit in WRITTEN if unit != sealed and _same_kind(unit, sealed)))


def _same_kind(unit: str, sealed: str) -> bool:
    found = _registry()
    return bool(found.get_dimensionality(WRITTEN[unit]) == found.get_dimensionality(WRITTEN[sealed]))


@cache
def _registry() -> "pint.UnitRegistry[float]":
    import pint  # half a second, so only when a shop writes a unit of its own

    return pint.UnitRegistry()
