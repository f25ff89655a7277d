"""How a shop writes units, turned into words the units library knows without guessing."""

from __future__ import annotations

import re

# A unit is looked up by itself and never evaluated as a sum; an exponent is 2 or 3.
_PART = re.compile(r"(?P<name>[A-Za-zµμΩ°º%_]+?|\")(?:\^|\*\*)?(?P<power>[23²³])?")
_SHOP_WORDS = {
    "cfh": "foot**3/hour",
    "scfh": "foot**3/hour",
    "cfm": "foot**3/minute",
    "lpm": "liter/minute",
    "slpm": "liter/minute",
    "ipm": "inch/minute",
    "psi": "psi",
    "mil": "thou",
    "mils": "thou",
    '"': "inch",
    "amps": "ampere",
    "volts": "volt",
    "ppmv": "ppm",
    "torr": "torr",
}
_DEGREES = {
    "c": "degC",
    "°c": "degC",
    "ºc": "degC",
    "degc": "degC",
    "f": "degF",
    "°f": "degF",
    "ºf": "degF",
    "degf": "degF",
}
_POWERS = {"2": "**2", "3": "**3", "²": "**2", "³": "**3"}


def spell_unit(written: str, for_temperature: str | None = None) -> str | None:
    """Spell a written unit for the library, or None when it has no unit's form.

    `for_temperature` is None where no temperature is meant, so that C and F stay coulomb and farad; otherwise "" for
    a temperature and "delta_" for a difference of two.

    Example:
        >>> spell_unit("ft3/h"), spell_unit("cfh"), spell_unit("F", for_temperature=""), spell_unit("2 + 2")
        ('ft**3/h', '(foot**3/hour)', 'degF', None)
    """
    if for_temperature is not None and written.strip().lower() in _DEGREES:
        return for_temperature + _DEGREES[written.strip().lower()]
    quotients = [_spell_product(product) for product in re.split(r"/|\bper\b", written)]
    return None if None in quotients else "/".join(str(product) for product in quotients)


def _spell_product(product: str) -> str | None:
    parts = [_PART.fullmatch(part) for part in re.split(r"[\s·]+", product.strip())]
    if not parts or None in parts:
        return None
    return "*".join(_spell_part(part["name"], part["power"]) for part in parts if part)


def _spell_part(name: str, power: str | None) -> str:
    word = _SHOP_WORDS.get(name.lower())
    return (f"({word})" if word else name) + (_POWERS[power] if power else "")
