"""What the welder logs at a joint: the purge, the tack, the pass, the look, the gap and the clean."""

from typing import Literal

from pydantic import Field, model_validator

from server.facts.entry import FrameEntry, JointEntry, Moment
from server.facts.values import Values

Run = Literal["root", "fill", "wash", "repair"]
Side = Literal["outside", "inside"]
Zone = Literal["bead", "edge", "tint"]


class Purge(FrameEntry):
    """Purge gas turned on for a set-up, moved or turned off."""

    kind: Literal["purge"]
    setup: str
    line: str
    act: Literal["on", "off", "moved"]
    values: Values = Field(default_factory=dict)


class Tack(JointEntry):
    """A set of tacks on one joint."""

    kind: Literal["tack"]
    torch_line: str | None = None
    purge_line: str | None = None
    setup: str | None = None
    sleeve: str | None = Field(default=None, description="`none` says: no filler")
    colour: int | None = Field(default=None, ge=0, le=8)
    removed: bool = Field(default=False, description="the tack was cut out again")
    values: Values = Field(default_factory=dict)


class Pass(JointEntry):
    """One run of the arc over the quarters named; `happened` is the end of the arc."""

    kind: Literal["pass"]
    run: Run
    torch_line: str
    purge_line: str | None = None
    trailing_line: str | None = None
    setup: str | None = None
    sleeve: str | None = Field(default=None, description="the rod sleeve; `none` says: no filler")
    machine: str | None = None
    arc_started: Moment | None = None
    restrikes: int = Field(default=0, ge=0)
    tungsten_type: str | None = None
    values: Values = Field(default_factory=dict)


class Look(JointEntry):
    """A look at one side of a joint in one zone: a grade of the colour scale, or why there is none."""

    kind: Literal["look"]
    side: Side
    zone: Zone = "bead"
    grade: int | None = Field(default=None, ge=0, le=8)
    answer: Literal["graded", "not sure", "no access"] = "graded"
    reason: str | None = None
    moment: Literal["as welded", "after finishing"] = "as welded"
    extent_mm: str | None = None
    photo: str | None = Field(default=None, description="SHA-256 of the picture")

    @model_validator(mode="after")
    def _a_grade_or_a_reason(self) -> "Look":
        if (self.answer == "graded") != (self.grade is not None):
            raise ValueError("look: a graded answer carries a grade 0 to 8; any other answer carries none")
        if self.answer == "no access" and not self.reason:
            raise ValueError("look: no access needs a reason, so that a later reader knows why")
        return self


class Gap(JointEntry):
    """The widest gap found before the first tack."""

    kind: Literal["gap"]
    values: Values


class Clean(JointEntry):
    """The joint was cleaned and by what means."""

    kind: Literal["clean"]
    method: str


class Removed(JointEntry):
    """Weld metal of an attempt was cut out or ground away; what follows is the next attempt."""

    kind: Literal["removed"]
    method: str
    piece_replaced: bool = Field(default=False, description="the tube or part itself was cut out for a new one")
    approved_by: tuple[str, ...] = ()
