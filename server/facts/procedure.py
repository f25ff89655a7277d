"""A written procedure at one revision: what it covers, what it rests on, its limits and its cautions."""

from datetime import date
from typing import Literal

from pydantic import Field

from server.facts.limit import Limit
from server.facts.noun import Noun
from server.facts.people import Role

DEFERRAL = "Local codes, your qualified procedure and licensed practice come first."


class SupportingRecord(Noun):
    """The procedure qualification record a revision rests on, with the range it qualifies for each limit name."""

    id: str
    dated: date
    standard: str
    ranges: dict[str, tuple[float | None, float | None]] = Field(default_factory=dict)
    thickness_mm: tuple[float, float] | None = None
    diameter_mm: tuple[float, float | None] | None = None
    variables: dict[str, tuple[str, ...]] = Field(default_factory=dict, description="how it was welded, by variable")
    changes_by: tuple[str, ...] = Field(default=(), description="tables that say which change wants a new record")


class Caution(Noun):
    """A caution at the place where work can hurt someone, with the authority it rests on."""

    where: Literal["before the arc", "at the arc", "after the arc"]
    words: str
    authority: str


class Procedure(Noun):
    """One revision of a written procedure; `sha256` is the digest of the file it was read from."""

    name: str
    revision: str
    title: str
    joint_kind: str = Field(description="thin tube to thin tube, thin tube to machined part, fitting, repair")
    stage: Literal["production", "repair"] = "production"
    repairs: tuple[str, ...] = Field(default=(), description="kinds of joint a repair procedure may be used on")
    replaces: str | None = Field(default=None, description="the revision before this one")
    valid_from: date
    marked: str = Field(description="whose values these are, and that they are no recommendation")
    base_metals: tuple[str, ...]
    thickness_mm: tuple[float, float]
    diameter_mm: tuple[float, float | None] | None = None
    filler_classes: tuple[str, ...]
    variables: dict[str, tuple[str, ...]] = Field(default_factory=dict, description="what its code calls essential")
    technique: tuple[str, ...] = ()
    cleaning: tuple[str, ...] = ()
    approvals: tuple[tuple[Role, ...], ...] = Field(default=(), description="roles that sign the 1st, 2nd ... repair")
    reason: str | None = Field(default=None, description="why this revision replaced the one before")
    supports: tuple[SupportingRecord, ...]
    limits: tuple[Limit, ...]
    cautions: tuple[Caution, ...]
    sha256: str = ""

    @property
    def called(self) -> str:
        """The name a person says: procedure and revision."""
        return f"{self.name} rev {self.revision}"
