"""A number as it was recorded: its value, its unit, how it came to be known and by what."""

import math
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from server.facts.noun import Noun

Provenance = Literal["typed", "set", "read", "counted", "computed", "inherited", "looked"]


def _from_decimal_text(value: Any) -> float:
    if not isinstance(value, str):
        raise ValueError(f"{value!r} is not decimal text; a sealed number is written in quotes, as \"10.1\"")
    number = float(value)
    if not math.isfinite(number):
        raise ValueError(f"{value!r} is not a finite number")
    return number


DecimalText = Annotated[float, BeforeValidator(_from_decimal_text)]


class Measured(Noun):
    """A value [in `unit`] with its provenance and, where an instrument or a machine gave it, which one."""

    value: DecimalText
    unit: str
    how: Provenance
    by: str | None = Field(default=None, description="instrument or machine id; needed for read and counted")
