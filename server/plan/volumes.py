"""The gas a member holds inside, and a purge set-up in all."""

import math

from server.facts.design import Design, Member, PurgeSetup


def member_volume_l(member: Member, size: str) -> float:
    """Volume inside a member [L]: bore times centre-line length, so bends count in full; a plate or solid holds none.

    >>> tube = Member(id="T", title="", metal="", od_mm=38.1, wall_mm=0.9, length_mm={"M": 600})
    >>> round(member_volume_l(tube, "M"), 3)
    0.621
    """
    if not member.closed:
        return 0.0
    return math.pi / 4 * member.bore_mm**2 * member.length_mm[size] / 1e6


def setup_volume_l(design: Design, setup: PurgeSetup, size: str) -> float:
    """Volume of every member in a purge set-up [L]."""
    inside = set(setup.members)
    return sum(member_volume_l(member, size) for member in design.members if member.id in inside)
