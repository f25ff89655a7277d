"""The head that every entry of the log carries: who, on which device, when by which clock, under which limit card."""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from server.facts.moment import parse_moment
from server.facts.noun import Noun


def _moment(value: Any) -> int:
    return parse_moment(value)


Moment = Annotated[int, BeforeValidator(_moment)]
Quarter = Literal["q12", "q3", "q6", "q9"]
QUARTERS: tuple[Quarter, ...] = ("q12", "q3", "q6", "q9")


class Entry(Noun):
    """One thing that happened, as the device wrote it; every time is the device's own clock, uncorrected [ms, UTC]."""

    id: str = Field(min_length=3, max_length=120, description="made once by the device: device, boot and sequence")
    device: str = Field(min_length=1, max_length=60)
    boot: str | None = Field(default=None, description="changes at every start of the device; none on imported paper")
    seq: int = Field(ge=0, description="the device's own count of its entries, never reset")
    mono_ms: int | None = Field(default=None, ge=0, description="the device's steady counter when it was tapped")
    device_time: Moment
    happened: Moment
    who: str
    role: str | None = None
    card: str | None = Field(default=None, description="digest of the limit card the device showed")
    late_reason: str | None = None
    unconfirmed: bool = Field(default=False, description="signed in offline; the identity is not confirmed yet")
    note: str | None = None


class FrameEntry(Entry):
    """An entry about one frame."""

    frame: str


class JointEntry(FrameEntry):
    """An entry about one joint of one frame, in one attempt at it."""

    joint: str
    attempt: int = Field(default=1, ge=1)
    quarters: tuple[Quarter, ...] = QUARTERS
