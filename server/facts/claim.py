"""A claim as its own file, apart from the weld record: what was reported, when the shop knew, and what was done."""

from typing import Literal

from pydantic import Field

from server.facts.deciding import Signature
from server.facts.entry import Moment
from server.facts.noun import Noun

StepKind = Literal["laboratory result", "photo", "letter", "told", "answer", "returned", "containment", "decision"]
Settled = Literal["repair", "replace", "refund", "refused", "field action", "look further", "closed"]


class Claim(Noun):
    """Somebody says a frame failed; `serial`, `joint` and `quarter` mark the place, which is no finding on the weld.

    `knew` is when anybody of the shop first knew: a clock of its own, whatever was written later.
    """

    kind: Literal["claim"] = "claim"
    id: str
    serial: str
    joint: str | None = None
    quarter: str | None = None
    reported_by: str = Field(min_length=1, description="a customer's id where the register has one, else in words")
    reported: Moment
    knew: Moment
    symptom: str = Field(min_length=3)
    written_by: str


class ClaimStep(Noun):
    """One thing that happened in a claim; `to` is whom it went to or came from, `file_sha256` what came with it."""

    kind: Literal["claim step"] = "claim step"
    id: str
    claim: str
    step: StepKind
    at: Moment
    words: str = Field(min_length=3)
    to: str | None = None
    serial: str | None = Field(default=None, description="the frame a containment or a letter is about")
    file_sha256: str | None = Field(default=None, pattern="^[0-9a-f]{64}$")
    more_files: tuple[str, ...] = Field(default=(), description="SHA-256 of what else came with it")
    written_by: str
    settled: Settled | None = Field(default=None, description="what a decision decides; some ask for both roles")
    signatures: tuple[Signature, ...] = ()

    @property
    def files(self) -> tuple[str, ...]:
        """Everything that came with it, by SHA-256."""
        return (*((self.file_sha256,) if self.file_sha256 else ()), *self.more_files)
