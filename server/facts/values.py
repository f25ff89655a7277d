"""The named values of an entry, held against the table of quantities: a known name, its unit, a possible number."""

from collections.abc import Mapping
from functools import lru_cache
from typing import Annotated, Any

from pydantic import AfterValidator, BeforeValidator

from server.facts.measured import Measured
from server.facts.quantities import QUANTITIES

_REMEMBERED = 16_384


def kept_values(told: Mapping[str, Mapping[str, Any]]) -> dict[str, Measured]:
    """Give named values as they were told; raises where one is no measured number."""
    return {name: _measured(*each, *each.values()) for name, each in told.items()}


# A bench reads the same few numbers off the same few instruments all year.
@lru_cache(_REMEMBERED)
def _measured(*names_then_told: Any) -> Measured:
    half = len(names_then_told) // 2
    return Measured.model_validate(dict(zip(names_then_told[:half], names_then_told[half:], strict=True)))


def _known_before(told: Any) -> Any:
    """What cannot be read is left as it is, so that it is complained of with its place."""
    try:
        return kept_values(told)
    except (AttributeError, TypeError, ValueError):
        return told


def _held_against_the_table(values: dict[str, Measured]) -> dict[str, Measured]:
    for name, measured in values.items():
        quantity = QUANTITIES.get(name)
        if quantity is None:
            raise ValueError(f"values.{name} is not a quantity of the bench; known are {', '.join(sorted(QUANTITIES))}")
        if measured.unit != quantity.unit:
            raise ValueError(f"values.{name} is in {measured.unit!r}; it is sealed in {quantity.unit!r}")
        if not quantity.least <= measured.value <= quantity.most:
            raise ValueError(
                f"values.{name} is {measured.value:g} {quantity.unit}; "
                f"possible is {quantity.least:g} to {quantity.most:g} {quantity.unit}"
            )
        if measured.how in ("read", "counted") and not measured.by:
            raise ValueError(f"values.{name} was {measured.how}, so `by` must name the instrument or machine")
    return values


Values = Annotated[dict[str, Measured], BeforeValidator(_known_before), AfterValidator(_held_against_the_table)]
