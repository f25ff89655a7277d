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
    shape: Literal["tube", "part", "plate"] = "tube"
    bend_mm: float | None = Field(default=None, gt=0, description="centre-line radius of its bends")

    @property
    def bore_mm(self) -> float:
        """Inner diameter [mm]."""
        return self.od_mm - 2 * self.wall_mm


class Joint(Noun):
    """A seam: the two members it joins, the first landing on the second; procedure, length [mm], place, inside view.

    It is finished when every run of `runs` has gone over every quarter. Quarters are seen from the free end of the
    member that lands, looking at the joint; `twelve` says where twelve o'clock points.
    """

    id: str
    title: str
    parts: tuple[str, str]
    procedure: str
    seam_mm: float = Field(gt=0)
    inside: Literal["F", "P", "N"]
    at: str = Field(description="side-view node, or with `part_way` a member")
    part_way: float | None = Field(default=None, ge=0, le=1, description="share of the way along the member `at`")
    shift_mm: tuple[float, float] = (0.0, 0.0)
    landing_mm: float | None = Field(default=None, ge=0, description="node to seam along the landing member")
    twelve: Literal["up", "forward"] = "up"
    runs: tuple[str, ...] = ("root", "fill")
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
    """What must be there before a step: `first` are steps such as `A:tacked`, `B:finished` or a geometry check.

    A joint is tacked, then welded (its first run begins), then finished, then released.
    """

    step: str
    first: tuple[str, ...]
    reason: str


class Hole(Noun):
    """A purge hole [mm] between two members, or from a member to the air when `into` is missing."""

    member: str
    into: str | None = None
    diameter_mm: float = Field(gt=0)
    joint: str | None = None
    title: str = ""


class PurgeSetup(Noun):
    """A purge set-up: the members it fills, where gas enters and leaves, what is closed, and its volume by size [L]."""

    id: str
    stage: str
    members: tuple[str, ...]
    inlet: str = Field(description="the member gas enters")
    inlet_title: str = ""
    later_stages: tuple[str, ...] = ()
    joints: tuple[str, ...] = Field(default=(), description="joints of other stages that need this set-up")
    outlets: tuple[Hole, ...] = ()
    closed: tuple[str, ...] = ()
    volume_l: dict[str, float]


class GeometryCheck(Noun):
    """A geometry check with the largest deviation allowed [mm] and where that figure comes from."""

    id: str
    title: str
    limit_mm: float
    narrower_mm: dict[str, float] = Field(default_factory=dict, description="narrower limits at named places")
    source: str


class Design(Noun):
    """One frame design in all its sizes; node coordinates [mm] by size, x forward and y up.

    `depth` is how far a node stands to the rider's right [mm]; `view` is how far a millimetre of it moves the node in
    the picture, so that what lies behind something else is seen beside it.
    """

    name: str
    title: str
    kind: str
    sizes: tuple[str, ...]
    nodes: dict[str, dict[str, tuple[float, float]]]
    depth: dict[str, dict[str, float]] = Field(default_factory=dict)
    view: tuple[float, float] = (0.0, 0.0)
    members: tuple[Member, ...]
    joints: tuple[Joint, ...]
    covers: tuple[Cover, ...] = ()
    needs: tuple[Need, ...] = ()
    holes: tuple[Hole, ...] = ()
    setups: tuple[PurgeSetup, ...] = ()
    geometry: tuple[GeometryCheck, ...] = ()
    order: tuple[str, ...] = ()
    sha256: str = ""
