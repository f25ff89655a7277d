"""Whether purge gas can get through a design: holes where they belong, every member reached, volumes that add up."""

from collections.abc import Iterator

from server.facts.design import Design, Joint, PurgeSetup
from server.plan.purge import open_holes, reached_from
from server.plan.volumes import setup_volume_l
from server.sheets.complaint import Complaint
from server.sheets.sheet import Sheet

VOLUME_SLACK = 0.02
"""Share by which a stated volume may differ from the computed one, for caps, plugs and rounding."""


def gas_wrong(design: Design, sheet: Sheet) -> list[Complaint]:
    """Every seam without its hole, every shut member, every set-up with a member no gas reaches or a wrong volume."""
    return [
        *_seams_without_hole(design, sheet),
        *_shut_members(design, sheet),
        *(c for index, setup in enumerate(design.setups) for c in _setup_wrong(design, setup, index, sheet)),
    ]


def _seams_without_hole(design: Design, sheet: Sheet) -> Iterator[Complaint]:
    members = {member.id: member for member in design.members}
    for index, joint in enumerate(design.joints):
        if all(members[part].closed for part in joint.parts) and not _drilled(design, joint):
            lands, on = joint.parts
            yield sheet.complain(
                ("joints", index),
                f"a purge hole in {on} under {lands}: both hold gas",
                f'Add {{ member = "{on}", into = "{lands}", diameter_mm = ..., joint = "{joint.id}" }} to holes, '
                f"or write closed = false for the one that holds none.",
                words=f"{lands} on {on} without a hole",
            )


def _drilled(design: Design, joint: Joint) -> bool:
    return any({hole.member, hole.into} == set(joint.parts) for hole in design.holes)


def _shut_members(design: Design, sheet: Sheet) -> Iterator[Complaint]:
    for index, member in enumerate(design.members):
        ways = [hole for hole in design.holes if member.id in (hole.member, hole.into)]
        ways += [outlet for setup in design.setups for outlet in setup.outlets if outlet.member == member.id]
        inlets = sum(setup.inlet == member.id for setup in design.setups)
        if member.closed and len(ways) + inlets < 2:
            expected = "at least two ways for gas: a hole in and a hole out"
            instead = "Add its holes, or write closed = false if it holds no gas."
            yield sheet.complain(("members", index), expected, instead, words=f"{member.id} with {len(ways) + inlets}")


def _setup_wrong(design: Design, setup: PurgeSetup, index: int, sheet: Sheet) -> Iterator[Complaint]:
    path = ("setups", index)
    for member in sorted(set(setup.members) - reached_from(setup.inlet, open_holes(design, setup))):
        expected = f"a way from the inlet {setup.inlet} through holes between its members"
        yield sheet.complain((*path, "members"), expected, "Add the hole, or take the member out.", value=member)
    for size, stated in setup.volume_l.items():
        computed = setup_volume_l(design, setup, size)
        if abs(stated - computed) > max(0.006, VOLUME_SLACK * computed):
            expected = f"about {computed:.2f} L, from the bores and lengths of its members"
            instead = "Mend the volume, the members or their lengths; or leave volume_l out."
            yield sheet.complain((*path, "volume_l", size), expected, instead)
