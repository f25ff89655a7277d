"""People, their roles, and what qualifies a welder: range, issue, confirmations."""

from datetime import date
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, model_validator

from server.facts.coupon_range import WeldedCoupon
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
    """A welder's qualification: procedures, thickness and diameter range [mm], and how long without confirmation.

    The range is written out, or read from the coupon by the tables named. It goes on when it is `confirmed`, or,
    as some codes have it, when the process is `used` within the months; there a good coupon restores a lapsed one.
    """

    kind: Literal["qualification"] = "qualification"
    id: str
    welder: str
    procedures: tuple[str, ...]
    thickness_mm: tuple[float, float] | None = None
    diameter_mm: OpenRange | None = None
    coupon: WeldedCoupon | None = None
    read_by: tuple[str, ...] = Field(default=(), description="range tables the coupon is read by, by their names")
    issued: date
    months: int = Field(default=6, gt=0)
    continuity: Literal["confirmed", "used"] = "confirmed"
    standard: str

    @model_validator(mode="after")
    def _has_a_range(self) -> "Qualification":
        if self.thickness_mm is None and not (self.coupon and self.read_by):
            raise ValueError("a range is missing; write thickness_mm, or coupon and read_by, such as the table's name")
        return self


class Confirmation(Noun):
    """A confirmation of a qualification from logged welds of the period."""

    kind: Literal["confirmation"] = "confirmation"
    id: str
    qualification: str
    dated: date
    by: str
