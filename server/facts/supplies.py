"""What comes and goes at the bench: cylinders on lines, rod sleeves opened and closed, problems, photos, traces."""

from typing import Literal

from pydantic import Field

from server.facts.entry import Entry, Moment
from server.facts.measured import DecimalText
from server.facts.values import Values
from server.facts.welding import Side, Zone


class CylinderChange(Entry):
    """One cylinder off a line and the next one on; either may be missing."""

    kind: Literal["cylinder"]
    line: str
    off: str | None = None
    on: str | None = None
    fill_lot: str | None = None
    kept_flowing: bool = Field(default=False, description="a two-way valve kept the gas on through the change")
    values: Values = Field(default_factory=dict, description="pressure of the cylinder taken on")
    off_values: Values = Field(default_factory=dict, description="pressure of the cylinder taken off")


class Sleeve(Entry):
    """A rod sleeve opened, closed or checked; the rod ends read as the class stamped on them."""

    kind: Literal["sleeve"]
    sleeve: str
    bench: str | None = None
    act: Literal["opened", "closed", "checked"]
    rod_ends: str | None = Field(default=None, description="filler class read on the rod ends; none: not read")
    values: Values = Field(default_factory=dict)


class Problem(Entry):
    """Something went wrong; the details may follow."""

    kind: Literal["problem"]
    frame: str | None = None
    joint: str | None = None
    words: str
    what: Literal["arc strike", "tungsten touched", "re-strike", "blow-through", "tint", "other"] = "other"


class Photo(Entry):
    """A picture of a joint, named by its bytes and, for near copies, by its look; the bytes come apart from it."""

    kind: Literal["photo"]
    frame: str | None = None
    joint: str | None = None
    attempt: int | None = Field(default=None, ge=1, description="none: the attempt begun last when it was logged")
    side: Side | None = None
    zone: Zone | None = None
    moment: Literal["as welded", "after finishing"] | None = None
    sha256: str
    looks_like: str | None = Field(default=None, description="64-bit difference hash of the picture, in hex")
    taken: Moment | None = None


class Arrived(Entry):
    """The bytes of a picture reached the record, whoever named them; written by the house, never by a tablet."""

    kind: Literal["arrived"]
    frame: str | None = Field(default=None, description="the frame its sender said it is of")
    sha256: str = Field(description="of the bytes as they were sent, which is what entries name")
    kept_sha256: str = Field(description="of the bytes that are kept: the same, unless something had to be taken out")
    looks_like: str = Field(description="64-bit difference hash of the picture as the record computes it, in hex")
    width_px: int = Field(ge=1)
    height_px: int = Field(ge=1)
    sent_by: str | None = Field(default=None, description="the device that sent it; none: not one the shop knows")


class Trace(Entry):
    """A machine trace attached to one pass; it adds a measured arc energy and replaces nothing typed."""

    kind: Literal["trace"]
    of: str = Field(description="id of the pass")
    sha256: str
    instrument: str
    beads: tuple[int, ...] = Field(default=(), description="which beads of the recording, from 1; none: all of them")
    values: Values = Field(default_factory=dict)
    energy_doubt_j: DecimalText | None = Field(
        default=None, description="standard uncertainty of the measured arc energy [J]; none: not known"
    )
    flags: tuple[str, ...] = ()
