"""A frame design: members, joints in quarters, what hides what, what comes first, purge set-ups, a side view."""

from typing import Literal

from pydantic import Field

from server.facts.noun import Noun


class Member(Noun):
    """A tube or part: length by size [mm], outer diameter and wall [mm], and the side-view nodes it runs between."""

    id: str
    title: str
    metal: str
    od_mm: float = Field(gt=0)
    wall_mm: float = Field(gt=0)
    length_mm: dict[str, float]
    between: tuple[str, ...] = Field(default=(), description="side-view nodes, in order; more than two: bent")
    closed: bool = Field(default=True, description="holds purge gas, so it has a volume")


class Joint(Noun):
    """A seam: the two members it joins, its procedure, length [mm], where it lies, how far its inside is seen."""

    id: str
    title: str
    parts: tuple[str, str]
    procedure: str
    seam_mm: float = Field(gt=0)
    inside: Literal["F", "P", "N"]
    at: str = Field(description="side-view node")
    shift_mm: tuple[float, float] = (0.0, 0.0)
    stage: str
    structural: bool = True
    quartered: bool = True
    thickness_mm: float | None = None
    diameter_mm: float | None = None


class Cover(Noun):
    """A quarter of `seam` that disappears under `by`; the seam is finished and released before `by` is tacked."""

    seam: str
    quarter: str
    by: str
    reason: str = ""


class Need(Noun):
    """What must be there before a step: `first` are steps such as `J01:tacked`, `J07:finished` or a geometry check."""

    step: str
    first: tuple[str, ...]
    reason: str


class Hole(Noun):
    """A purge hole [mm] between two members, or from a member to the air when `into` is missing."""

    member: str
    into: str | None = None
    diameter_mm: float = Field(gt=0)
    joint: str | None = None


class PurgeSetup(Noun):
    """A purge set-up: the members it fills, where gas enters and leaves, what is closed, and its volume by size [L]."""

    id: str
    stage: str
    members: tuple[str, ...]
    inlet: str
    outlets: tuple[Hole, ...] = ()
    closed: tuple[str, ...] = ()
    volume_l: dict[str, float]


class GeometryCheck(Noun):
    """A geometry check with the largest deviation allowed [mm] and where that figure comes from."""

    id: str
    title: str
    limit_mm: float
    source: str


class Design(Noun):
    """One frame design in all its sizes; node coordinates [mm] by size, x forward and y up."""

    name: str
    title: str
    kind: str
    sizes: tuple[str, ...]
    nodes: dict[str, dict[str, tuple[float, float]]]
    members: tuple[Member, ...]
    joints: tuple[Joint, ...]
    covers: tuple[Cover, ...] = ()
    needs: tuple[Need, ...] = ()
    holes: tuple[Hole, ...] = ()
    setups: tuple[PurgeSetup, ...] = ()
    geometry: tuple[GeometryCheck, ...] = ()
    order: tuple[str, ...] = ()
    sha256: str = ""
