"""A purge set-up as tubes joined by holes: what flows in, where it can leave, and what is shut in between."""

from __future__ import annotations

from dataclasses import dataclass

from server.physics.errors import UnusableInput
from server.physics.inputs import between, positive
from server.physics.purge_single import AIR_OXYGEN_PPM


@dataclass(frozen=True, slots=True)
class PurgeMember:
    """A tube or part that holds gas: volume inside [L], length inside [mm], air leaking in [mL/min]."""

    name: str
    volume_l: float
    length_mm: float
    leak_ml_per_min: float = 0.0


@dataclass(frozen=True, slots=True)
class PurgeHole:
    """A hole [mm] through a wall [mm] from a member into another, or to the air outside when `into` is None."""

    member: str
    into: str | None
    diameter_mm: float
    wall_mm: float = 0.9


@dataclass(frozen=True, slots=True)
class GasInlet:
    """Where gas flows in [L/min], and the oxygen it brings along [ppm]."""

    member: str
    flow_l_per_min: float
    oxygen_ppm: float = 0.0


@dataclass(frozen=True, slots=True)
class PurgeNetwork:
    """A purge set-up; names and numbers are checked when it is made, whether gas reaches all when it is computed."""

    members: tuple[PurgeMember, ...]
    holes: tuple[PurgeHole, ...]
    inlets: tuple[GasInlet, ...]

    def __post_init__(self) -> None:
        names = [member.name for member in self.members]
        if len(set(names)) < len(names) or not names:
            raise UnusableInput("members", names, "at least one member, each named once", "Rename what is there twice.")
        if not self.inlets:
            raise UnusableInput("inlets", (), "at least one inlet", "Say where the gas comes in.")
        for member in self.members:
            _check_member(member)
        for hole in self.holes:
            _check_hole(hole, names)
        for inlet in self.inlets:
            _check_inlet(inlet, names)


def _check_member(member: PurgeMember) -> None:
    positive(f"{member.name}: volume_l", member.volume_l)
    positive(f"{member.name}: length_mm", member.length_mm)
    between(f"{member.name}: leak_ml_per_min", member.leak_ml_per_min, 0.0, 1e6)


def _check_inlet(inlet: GasInlet, names: list[str]) -> None:
    _known("member", inlet.member, names)
    positive(f"{inlet.member}: flow_l_per_min", inlet.flow_l_per_min, "Without a flow nothing is purged.")
    between(f"{inlet.member}: oxygen_ppm", inlet.oxygen_ppm, 0.0, AIR_OXYGEN_PPM)


def _check_hole(hole: PurgeHole, names: list[str]) -> None:
    _known("member", hole.member, names)
    if hole.into is not None:
        _known("into", hole.into, names)
    if hole.into == hole.member:
        raise UnusableInput("into", hole.into, "another member than the hole's own", "Leave it out for a vent.")
    positive(f"{hole.member}: diameter_mm", hole.diameter_mm)
    between(f"{hole.member}: wall_mm", hole.wall_mm, 0.0, 100.0)


def _known(field: str, name: str, names: list[str]) -> None:
    if name not in names:
        raise UnusableInput(field, name, f"one of {', '.join(names)}", "Correct the name or add the member.")
