"""The sample audit: joints without a finding drawn by lot for a second look, and what that look found."""

from typing import Literal

from pydantic import Field

from server.facts.deciding import Signature
from server.facts.noun import Noun

Outcome = Literal["agrees", "found", "not reached"]


class SampleDraw(Noun):
    """Joints of one week drawn by lot; anybody draws the same again from the checkpoint's root and what was known.

    `without_finding` joints stood to be drawn, named by the digest of their list; findings are those of `known_at`.
    """

    kind: Literal["sample draw"] = "sample draw"
    id: str
    week: str = Field(pattern=r"^\d{4}-W\d\d$")
    checkpoint_size: int
    checkpoint_root: str = Field(pattern="^[0-9a-f]{64}$")
    known_at: int
    welded: int
    without_finding: int
    subjects_sha256: str = Field(pattern="^[0-9a-f]{64}$")
    drawn: tuple[str, ...]
    drawn_by: str


class SecondLook(Noun):
    """What a second look at one drawn joint found; a later one follows it, none is edited."""

    kind: Literal["second look"] = "second look"
    id: str
    draw: str
    subject: str
    outcome: Outcome
    words: str = Field(min_length=3)
    nonconformity: str | None = None
    signatures: tuple[Signature, ...] = Field(min_length=1)
