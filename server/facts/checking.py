"""What qualifies other work: gas beads, coupons, instrument checks, geometry and the readings of a line."""

from typing import Literal

from pydantic import Field

from server.facts.entry import Entry, FrameEntry
from server.facts.values import Values

Result = Literal["good", "failed", "waiting"]


class Bead(Entry):
    """A test bead run on scrap with one gas line; a waiting result comes as a later entry naming this one."""

    kind: Literal["bead"]
    line: str
    cylinder: str | None = None
    result: Result
    grade: int | None = Field(default=None, ge=0, le=8)
    why: str | None = Field(default=None, description="shift, change, weekly, hose, suspicion")
    photo: str | None = None
    of: str | None = Field(default=None, description="id of the test this result belongs to")


class Coupon(Entry):
    """A welder's coupon, bent; tested now, its result perhaps later by an entry naming this one."""

    kind: Literal["coupon"]
    welder: str
    procedures: tuple[str, ...]
    result: Result
    fault: str | None = None
    photo: str | None = None
    of: str | None = None


class Check(Entry):
    """A check of an instrument or a gas line: air check, cross-check, leak test, dew point, function."""

    kind: Literal["check"]
    check: Literal["air", "cross", "leak", "dew point", "function"]
    subject: str = Field(description="the instrument or gas line checked")
    against: str | None = Field(default=None, description="the second instrument of a cross-check")
    result: Result
    values: Values = Field(default_factory=dict)
    other_values: Values = Field(default_factory=dict)
    acted_on: bool | None = None


class Geometry(FrameEntry):
    """A geometry check of the frame on the table."""

    kind: Literal["geometry"]
    check: str
    result: Result
    cold_set: bool = False
    values: Values = Field(default_factory=dict)


class Reading(Entry):
    """A reading taken apart from a pass: on a line, in a purge set-up, or on an instrument."""

    kind: Literal["reading"]
    frame: str | None = None
    setup: str | None = None
    line: str | None = None
    joint: str | None = None
    values: Values
