"""People, their roles, and what qualifies a welder: range, issue, confirmations."""

from datetime import date
from typing import Literal

from pydantic import Field

from server.facts.noun import Noun

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
    diameter_mm: tuple[float, float | None] | None = None
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
