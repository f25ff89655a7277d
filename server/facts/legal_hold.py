"""A legal hold: nothing of a frame may be thrown away, neither record nor part, until whoever may lifts it."""

from typing import Literal

from pydantic import Field

from server.facts.deciding import Signature
from server.facts.entry import Moment
from server.facts.noun import Noun


class LegalHold(Noun):
    """A hold placed on a frame, or lifted from it by a later line; signed, with its reason."""

    kind: Literal["legal hold"] = "legal hold"
    id: str
    frame: str
    act: Literal["placed", "lifted"]
    at: Moment
    reason: str = Field(min_length=3)
    signatures: tuple[Signature, ...] = Field(min_length=1)
