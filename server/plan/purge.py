"""A purge set-up of a design as a network of members and holes that the purge formulas take."""

from collections.abc import Iterable

from server.facts.design import Design, Hole, PurgeSetup
from server.physics.purge_network import GasInlet, PurgeHole, PurgeMember, PurgeNetwork
from server.plan.volumes import member_volume_l


def purge_network(
    design: Design, size: str, setup: PurgeSetup, flow_l_per_min: float, oxygen_ppm: float = 0.0
) -> PurgeNetwork:
    """The set-up's members with their volumes [L], the holes open between them, its outlets and its inlet."""
    members = {member.id: member for member in design.members}
    holes = [*open_holes(design, setup), *setup.outlets]
    return PurgeNetwork(
        members=tuple(
            PurgeMember(name, member_volume_l(members[name], size), members[name].length_mm[size])
            for name in setup.members
        ),
        holes=tuple(PurgeHole(h.member, h.into, h.diameter_mm, members[h.member].wall_mm) for h in holes),
        inlets=(GasInlet(setup.inlet, flow_l_per_min, oxygen_ppm),),
    )


def setup_of(design: Design, joint: str) -> PurgeSetup | None:
    """The set-up a joint is welded in: one that names it, else the first of its stage; none when there is none."""
    stage = next(j.stage for j in design.joints if j.id == joint)
    naming = [setup for setup in design.setups if joint in setup.joints]
    staged = [setup for setup in design.setups if stage in (setup.stage, *setup.later_stages)]
    return next(iter(naming + staged), None)


def open_holes(design: Design, setup: PurgeSetup) -> list[Hole]:
    """The holes between members that are both in the set-up; all others are taped or plugged."""
    inside = set(setup.members)
    return [hole for hole in design.holes if hole.into is not None and {hole.member, hole.into} <= inside]


def reached_from(inlet: str, holes: Iterable[Hole]) -> set[str]:
    """The members gas from the inlet can reach through the holes."""
    holes, reached = list(holes), {inlet}
    while True:
        further = {name for hole in holes for name in (hole.member, hole.into) if name and _touches(hole, reached)}
        if further <= reached:
            return reached
        reached |= further


def _touches(hole: Hole, reached: set[str]) -> bool:
    return hole.member in reached or hole.into in reached
