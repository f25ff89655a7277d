"""A written procedure as its file says it: the shop's own units, one table for each limit."""

from datetime import date
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, Strict, model_validator

from server.facts.coupon_range import WeldedCoupon
from server.facts.limit import MeasuringPlan
from server.facts.people import Role
from server.facts.procedure import Caution
from server.procedures.coupon_reading import with_read_ranges

Number = Annotated[float, Strict(), Field(allow_inf_nan=False)]
Words = Annotated[str, Field(min_length=1)]
Day = Annotated[date, Strict()]


def _as_list(value: Any) -> Any:
    return value if isinstance(value, list) else [value]


class Written(BaseModel):
    """A table of the file; a field it does not know is a slip."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class WrittenRange(Written):
    """From `low` to `high` in a unit; a missing end is open."""

    low: Number | None = None
    high: Number | None = None
    unit: str = Field(description='the unit both ends are written in, such as "mm"')


class WrittenLimit(Written):
    """One limit: a range or what is allowed, where it comes from, and when a reading is wanted."""

    low: Number | None = Field(default=None, description="least value still allowed")
    high: Number | None = Field(default=None, description="largest value still allowed")
    allowed: tuple[Words | Number, ...] = Field(default=(), description="what is allowed, where it is no range")
    unit: str = Field(default="", description='the shop\'s own unit, such as "L/min" or "CFH"')
    side: Literal["outside", "inside"] | None = Field(default=None, description="side of the joint looked at")
    zone: Literal["bead", "edge", "tint"] | None = Field(
        default=None, description="bead, the narrow edge band, or the wider tint"
    )
    runs: tuple[str, ...] = Field(default=(), description="kinds of run it holds for; left out: all")
    line: Literal["torch", "trailing", "purge"] | None = Field(default=None, description="gas line it is about")
    joint_kinds: tuple[str, ...] = Field(default=(), description="kinds of joint it holds for; left out: all")
    k: Number | None = Field(default=None, gt=0, le=1, description="thermal efficiency a heat input is reckoned with")
    source: str = Field(min_length=3, description='where the figure comes from, such as "PQR-7"')
    valid_from: Day | None = Field(default=None, description="left out: the day the revision starts")
    beyond: str = Field(default="", description="what to do beyond it; left out: the usual words")
    plan: MeasuringPlan = Field(description='when a reading is wanted, such as { when = "every pass", how = "read" }')


class WrittenSupport(Written):
    """A procedure qualification record: what was tested, and the ranges it qualifies."""

    id: str = Field(min_length=1, description="the number of the qualification record, in quotes")
    dated: Day = Field(description="the day of the record, such as 2024-08-22")
    standard: str = Field(min_length=3, description="the standard, or whose rules, its ranges follow")
    coupon: WeldedCoupon | None = Field(default=None, description="what was welded, where a table reads the ranges")
    read_by: tuple[str, ...] = Field(default=(), description='tables, such as ["ASME IX QW-451.1 base metal"]')
    thickness: WrittenRange | None = Field(default=None, description="wall it qualifies")
    diameter: WrittenRange | None = Field(default=None, description="outer diameter it qualifies")
    ranges: dict[str, WrittenRange] = Field(default_factory=dict, description="range it qualifies, by limit")
    variables: dict[str, tuple[Words, ...]] = Field(
        default_factory=dict, description='how the coupon was welded, such as { "backing gas" = ["argon"] }'
    )
    changes_by: tuple[Words, ...] = Field(default=(), description="tables of the changes that want a new record")

    @model_validator(mode="before")
    @classmethod
    def _with_read_ranges(cls, told: Any) -> Any:
        return with_read_ranges(told)


class WrittenMaterial(Written):
    """What the procedure may be used on and with."""

    metals: tuple[Words, ...] = Field(min_length=1, description='base metals, such as ["Ti-3Al-2.5V tube"]')
    thickness: WrittenRange = Field(description='walls, such as { low = 0.7, high = 1.2, unit = "mm" }')
    diameter: WrittenRange | None = Field(default=None, description="outer diameters; left out: any")
    filler_classes: tuple[Words, ...] = Field(description='filler classes, such as ["ERTi-9"]; [] for none at all')


class WrittenProcedure(Written):
    """One revision of a written procedure. Once released it is never edited: write the next revision instead."""

    name: str = Field(min_length=1, description="the name the shop uses, the same in every revision")
    revision: str = Field(min_length=1, description='the revision, such as "C"')
    title: str = Field(min_length=3, description="what it is for, in a few words")
    joint_kind: str = Field(min_length=3, description='kind of joint, such as "thin tube to thin tube"')
    stage: Literal["production", "repair"] = Field(default="production", description="production or repair")
    repairs: tuple[Words, ...] = Field(default=(), description="of a repair: kinds of joint it may be used on")
    replaces: str | None = Field(default=None, description="the revision before this one")
    reason: str | None = Field(default=None, description="why it replaces the one before")
    valid_from: Day = Field(description="the first day it is in force, such as 2025-05-05")
    marked: str = Field(min_length=10, description="whose values these are, and that they are no recommendation")
    technique: tuple[Words, ...] = Field(default=(), description="how the arc is run: polarity, start, torch, weave")
    cleaning: tuple[Words, ...] = Field(min_length=1, description="how the joint is cleaned before the arc")
    approvals: tuple[tuple[Role, ...], ...] = Field(default=(), description="roles that sign the 1st, 2nd ... repair")
    material: WrittenMaterial = Field(description="a table [material] with metals, thickness and filler_classes")
    variables: dict[str, tuple[Words, ...]] = Field(
        default_factory=dict, description='essential variables said nowhere else, such as { "metal group" = ["P-53"] }'
    )
    supports: tuple[WrittenSupport, ...] = Field(min_length=1, description="a table [[supports]] for each record")
    limits: dict[str, Annotated[list[WrittenLimit], BeforeValidator(_as_list)]] = Field(
        min_length=1, description="a table [limits] with one entry for each limit"
    )
    cautions: tuple[Caution, ...] = Field(
        min_length=1, description="a table [[cautions]] for each danger, naming its authority"
    )
