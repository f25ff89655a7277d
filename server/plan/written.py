"""A frame design as its file says it: a value that holds for all sizes is written once, else once for each size."""

from typing import Annotated, TypeVar

from pydantic import BaseModel, ConfigDict, Field, Strict

from server.facts.design import Cover, GeometryCheck, Hole, Joint, Member, Need, PurgeSetup

Number = Annotated[float, Strict(), Field(allow_inf_nan=False)]
Place = Annotated[tuple[Number, ...], Field(min_length=2, max_length=3)]
T = TypeVar("T")


class WrittenMember(Member):
    """A tube or part; its length [mm] once for all sizes or by size."""

    length_mm: Number | dict[str, Number] = Field(  # type: ignore[assignment]
        description="length between the surfaces it lands on, 395 or { S = 380, M = 395 }"
    )


class WrittenSetup(PurgeSetup):
    """A purge set-up; its volume may be left out, it is then computed from its members."""

    volume_l: dict[str, Number] = Field(default_factory=dict, description="volume [L] by size, left out: computed")


class WrittenDesign(BaseModel):
    """One frame design in all its sizes."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    name: str = Field(min_length=1, description="the design's short name, in quotes")
    title: str = Field(min_length=1, description="what people call it")
    kind: str = Field(min_length=3, description='kind of frame, such as "touring cycle"')
    sizes: tuple[str, ...] = Field(min_length=1, description='sizes in quotes, such as ["S", "M"]')
    view: Annotated[tuple[Number, ...], Field(min_length=2, max_length=2)] = Field(
        default=(0.0, 0.0), description="how far [mm] a millimetre to the rider's right moves a point in the picture"
    )
    nodes: dict[str, Place | dict[str, Place]] = Field(
        min_length=1, description="a table [nodes]: x forward, y up and, where it matters, z to the rider's right [mm]"
    )
    members: tuple[WrittenMember, ...] = Field(min_length=1, description="tubes and parts")
    joints: tuple[Joint, ...] = Field(min_length=1, description="seams")
    covers: tuple[Cover, ...] = Field(default=(), description="which quarter of a seam disappears under which joint")
    needs: tuple[Need, ...] = Field(default=(), description="what must be there before a step, and why")
    holes: tuple[Hole, ...] = Field(default=(), description="purge holes between members, and vents")
    setups: tuple[WrittenSetup, ...] = Field(default=(), description="purge set-ups")
    geometry: tuple[GeometryCheck, ...] = Field(default=(), description="geometry checks")
    order: tuple[str, ...] = Field(default=(), description="joints in the order they are usually finished")


def by_size(value: T | dict[str, T], sizes: tuple[str, ...]) -> dict[str, T]:
    """A value for each size, whether it was written once or by size."""
    return {size: value[size] for size in sizes} if isinstance(value, dict) else dict.fromkeys(sizes, value)
