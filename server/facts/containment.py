"""A containment: the frames that share a doubt, the notice to whoever has them, and who was told and answered when."""

from typing import Literal

from pydantic import Field

from server.facts.entry import Moment
from server.facts.noun import Noun

ContainmentAct = Literal["told", "answer", "no answer", "back", "looked at", "done"]


class Containment(Noun):
    """Frames to be told about, as they were found; `asked` is the question that found them, `notice` the draft."""

    kind: Literal["containment"] = "containment"
    id: str
    title: str = Field(min_length=3)
    frames: tuple[str, ...] = Field(min_length=1)
    because: str = Field(min_length=3)
    asked: str = ""
    claim: str | None = None
    notice: str = Field(min_length=3)
    known_at: int = Field(description="record position the frames were found at")
    written_by: str
    at: Moment


class ContainmentStep(Noun):
    """One thing done about one frame of a containment: somebody was told, answered, sent it back."""

    kind: Literal["containment step"] = "containment step"
    id: str
    containment: str
    frame: str
    act: ContainmentAct
    at: Moment
    to: str | None = Field(default=None, description="a customer's id where the register has one, else in words")
    words: str = Field(min_length=3)
    written_by: str
