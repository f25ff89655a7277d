"""A limit of a written procedure: a range or a list of what is allowed, with unit, source, start and measuring plan."""

from datetime import date
from typing import Literal

from pydantic import Field, model_validator

from server.facts.noun import Noun

PlanWhen = Literal[
    "every pass",
    "every joint",
    "every fill",
    "every set-up",
    "first of shift",
    "one in n",
    "one per stage",
    "machine only",
    "never",
]


class MeasuringPlan(Noun):
    """When a limit wants a reading; only then can a missing one be `unknown`."""

    when: PlanWhen
    n: int | None = Field(default=None, ge=2, description="for one in n: joints whose number n divides")
    how: str | None = Field(default=None, description="how it is known: set, read, counted, typed, looked, computed")
    not_tacks: bool = False
    where: tuple[str, ...] = Field(default=(), description="inside-view codes it applies to, for inside looks")
    picture: bool = Field(default=False, description="the look comes with a picture")

    @model_validator(mode="after")
    def _n_belongs_to_one_in_n(self) -> "MeasuringPlan":
        if (self.when == "one in n") != (self.n is not None):
            raise ValueError("measuring plan: `n` is given with `one in n`, and only then")
        return self


class Limit(Noun):
    """One limit: `low` and `high` in the sealed `unit` (a missing end is open), or the words allowed.

    `own_unit`, `own_low` and `own_high` keep what the shop wrote when it wrote another unit, for showing only.
    """

    name: str
    unit: str
    low: float | None = None
    high: float | None = None
    allowed: tuple[str, ...] = ()
    side: Literal["outside", "inside"] | None = None
    zone: Literal["bead", "edge", "tint"] | None = None
    runs: tuple[str, ...] = Field(default=(), description="kinds of run it holds for; empty: all")
    line: Literal["torch", "trailing", "purge"] | None = Field(default=None, description="gas line it is about")
    joint_kinds: tuple[str, ...] = Field(default=(), description="kinds of joint it holds for; empty: all")
    k: float | None = Field(default=None, description="thermal efficiency a heat input limit is written for")
    beyond: str = Field(default="", description="what to do when it is outside, in shop words")
    own_unit: str | None = None
    own_low: float | None = None
    own_high: float | None = None
    source: str = Field(min_length=3)
    valid_from: date
    plan: MeasuringPlan

    @model_validator(mode="after")
    def _bounds_make_sense(self) -> "Limit":
        if self.low is None and self.high is None and not self.allowed:
            raise ValueError(f"limit {self.name}: give low, high or allowed")
        if self.low is not None and self.high is not None and self.low >= self.high:
            raise ValueError(f"limit {self.name}: low {self.low:g} is not below high {self.high:g} {self.unit}")
        return self
