"""People, their roles, and what qualifies a welder: range, issue, confirmations."""

from datetime import date
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from server.facts.noun import Noun


def _open_above(value: Any) -> Any:
    # TOML has no word for "no upper end"; one figure alone says it.
    return (*value, None) if isinstance(value, list | tuple) and len(value) == 1 else value


OpenRange = Annotated[tuple[float, float | None], BeforeValidator(_open_above)]
"""A lower and an upper end; given one figure alone, the upper end is open."""

Role = Literal["welder", "fitter", "quality lead", "owner", "finisher", "office"]


class Person(Noun):
    """Somebody who works here; a person may hold several roles."""

    kind: Literal["person"] = "person"
    id: str
    name: str
    roles: tuple[Role, ...]
    stands_in_for: tuple[str, ...] = ()
    left: date | None = None


class Qualification(Noun):
    """A welder's qualification: procedures, thickness and diameter range [mm], and how long without confirmation."""

    kind: Literal["qualification"] = "qualification"
    id: str
    welder: str
    procedures: tuple[str, ...]
    thickness_mm: tuple[float, float]
    diameter_mm: OpenRange | None = None
    issued: date
    months: int = Field(default=6, gt=0)
    standard: str


class Confirmation(Noun):
    """A confirmation of a qualification from logged welds of the period."""

    kind: Literal["confirmation"] = "confirmation"
    id: str
    qualification: str
    dated: date
    by: str
