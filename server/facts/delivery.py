"""A delivery is what a device sent, once: one entry as one canonical line; and the receipt it gets for it."""

from typing import Literal

from pydantic import Field

from server.facts.entry import Moment
from server.facts.noun import Noun

Taken = Literal["taken", "taken, not understood", "taken before", "refused copy"]


class Delivery(Noun):
    """One sending of one entry; `line` holds the entry's bytes as text, exactly as they are hashed and compared."""

    id: str = Field(min_length=3, max_length=160)
    device: str = Field(min_length=1, max_length=60)
    sent_at: Moment | None = Field(default=None, description="device clock when it was sent; none on imported paper")
    received_at: Moment | None = Field(default=None, description="only in a shop folder: when it first arrived")
    line: str = Field(max_length=64_000)


class Receipt(Noun):
    """What the record answers for one delivery; only against this may a tablet let its entry go."""

    delivery: str
    entry: str
    taken: Taken
    position: int
    leaf: str = Field(description="hex of the leaf hash")
    received: str
    problem: str | None = None
    understood: bool = Field(default=True, description="false: somebody has to log it again, however often it was sent")
