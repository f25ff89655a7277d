"""The frame's way through the house: hold points released, stages, opening on a tablet, corrections."""

from typing import Any, Literal

from pydantic import Field

from server.facts.entry import Entry, FrameEntry, JointEntry

Stage = Literal[
    "packet", "cut", "sub-assembly", "reamed", "aligned", "inspected",
    "finishing", "released", "shipped", "returned", "scrapped",
]


class Release(JointEntry):
    """A hold point released: somebody other than the welder saw this seam finished, before it is covered."""

    kind: Literal["release"]
    provisional: bool = Field(default=False, description="given before the record had the passes")
    slip: str | None = None


class StageReached(FrameEntry):
    """A frame reached a stage of its way."""

    kind: Literal["stage"]
    stage: Stage
    customer: str | None = None
    shipment: str | None = None


class Opened(FrameEntry):
    """A device opened or closed a frame, so that a release can wait for every device that had it."""

    kind: Literal["opened"]
    act: Literal["opened", "closed"]


class Correction(Entry):
    """A later entry that mends an earlier one: a field put right, or the whole withdrawn; the old stays readable."""

    kind: Literal["correction"]
    of: str = Field(description="id of the entry corrected")
    withdraw: bool = False
    change: dict[str, Any] = Field(default_factory=dict)
    reason: str = Field(min_length=3)
