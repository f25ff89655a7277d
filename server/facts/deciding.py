"""What people sign: decisions on findings, permissions, holds, concessions, nonconformities and narrowings."""

from typing import Literal

from pydantic import Field

from server.facts.entry import Moment
from server.facts.noun import Noun

Choice = Literal[
    "accept", "rework", "repair", "use as is", "deviation permit", "regrade", "scrap", "hold", "end of hold"
]


class Signature(Noun):
    """Who signed, in which role, when, what was declared, and over which bytes (a digest of what was shown)."""

    person: str
    role: str
    at: Moment
    meaning: str = Field(min_length=3)
    shown_sha256: str
    both_roles_one_person: bool = False


class StandIn(Noun):
    """Somebody acts in an absent person's role for a while, signed by the absent one; `ends` names one that is over."""

    kind: Literal["stand-in"] = "stand-in"
    id: str
    person: str
    absent: str
    role: Literal["quality lead", "owner"]
    since: Moment
    until: Moment
    reason: str = Field(min_length=3)
    ends: str | None = None
    signatures: tuple[Signature, ...] = Field(min_length=1)


class Decision(Noun):
    """A signed decision on findings named by their keys; followed by a later one, never edited."""

    kind: Literal["decision"] = "decision"
    id: str
    choice: Choice
    findings: tuple[str, ...] = Field(min_length=1)
    seen: dict[str, str] = Field(default_factory=dict, description="digest of each finding as it was shown, by key")
    frame: str | None = None
    reason: str = Field(min_length=3)
    signatures: tuple[Signature, ...] = Field(min_length=1)
    concession: str | None = None
    nonconformity: str | None = None
    follows: str | None = None
    due: str | None = None
    attachments: tuple[str, ...] = ()


class Permission(Noun):
    """A permission given: a hold point, the final inspection, a release, a shipment; or an override with its reason."""

    kind: Literal["permission"] = "permission"
    id: str
    permits: Literal["hold point", "final inspection", "release", "ship"]
    frame: str
    joint: str | None = None
    known_at: int = Field(description="record position the gate judged at")
    open_findings: tuple[str, ...] = Field(default=(), description="what was overridden, by key")
    reason: str | None = None
    signatures: tuple[Signature, ...] = Field(min_length=1)


class Concession(Noun):
    """Leave to use what does not conform: for named frames, so many times, until a day."""

    kind: Literal["concession"] = "concession"
    id: str
    question: str | None = None
    frames: tuple[str, ...]
    joints: tuple[str, ...] = ()
    count: int | None = None
    expires: Moment | None = None
    before: bool = Field(default=False, description="a deviation permit: given before the work it covers")
    reason: str
    signatures: tuple[Signature, ...] = Field(min_length=2)


class Nonconformity(Noun):
    """Findings grouped under a number: containment, cause, corrective action, and whether it recurred."""

    kind: Literal["nonconformity"] = "nonconformity"
    id: str
    title: str
    findings: tuple[str, ...] = ()
    held: tuple[str, ...] = Field(default=(), description="joints held, as frame/joint#attempt")
    containment: str | None = None
    cause: str | None = None
    action: str | None = None
    recurred: str | None = None
    closed: Moment | None = None
    signatures: tuple[Signature, ...] = ()


class Narrowing(Noun):
    """A suspect set made smaller by a fact, signed with a reason; undone only by another."""

    kind: Literal["narrowing"] = "narrowing"
    id: str
    check: str = Field(description="id of the failed check the set was opened from")
    by: Literal["cylinder connected", "cross-check", "inside colour", "sister instrument", "as-found curve", "none"]
    fact: str | None = Field(default=None, description="id of the entry or register line it rests on")
    since: Moment | None = None
    until: Moment | None = None
    keeps: tuple[str, ...] = ()
    lets_out: tuple[str, ...] = Field(default=(), description="joints a fact at the joint speaks for; others stay in")
    rests_on: tuple[str, ...] = Field(default=(), description="ids of all entries, where there are several facts")
    undoes: str | None = None
    reason: str = Field(min_length=3)
    signatures: tuple[Signature, ...] = Field(min_length=1)
