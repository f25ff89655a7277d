"""The named values of an entry, held against the table of quantities: a known name, its unit, a possible number."""

from typing import Annotated

from pydantic import AfterValidator

from server.facts.measured import Measured
from server.facts.quantities import QUANTITIES


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


Values = Annotated[dict[str, Measured], AfterValidator(_held_against_the_table)]
