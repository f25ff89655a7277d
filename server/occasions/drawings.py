"""A design read for judging: its joints by id with thickness and diameter filled in, what hides and needs what."""

import re
from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from server.facts.design import Cover, Design, GeometryCheck, Joint, PurgeSetup

_NUMBER = re.compile(r"\d+")


class Wanted(NamedTuple):
    """What must be there before a step, read apart: each with its joint and how far, or that it is a geometry check."""

    step: str
    verb: str
    first: tuple[tuple[str, str, str, bool], ...]
    reason: str


class Drawing:
    """One design with its look-ups made once."""

    def __init__(self, design: Design) -> None:
        self.name = design.name
        self._members = {member.id: member for member in design.members}
        self.joints: dict[str, Joint] = {joint.id: self._measured(joint) for joint in design.joints}
        self.numbers = {joint: _number(joint) for joint in self.joints}
        self.metals = {joint.id: self._metals(joint.parts) for joint in design.joints}
        self.covers: Mapping[str, list[Cover]] = defaultdict(list)
        for cover in design.covers:
            self.covers[cover.seam].append(cover)
        self.needs: Mapping[str, list[Wanted]] = defaultdict(list)
        self.setups: dict[str, PurgeSetup] = {setup.id: setup for setup in design.setups}
        self.geometry: dict[str, GeometryCheck] = {check.id: check for check in design.geometry}
        for need in design.needs:
            joint, _, verb = need.step.partition(":")
            first = tuple((each, *each.partition(":")[::2], each in self.geometry) for each in need.first)
            self.needs[joint].append(Wanted(need.step, verb, first, need.reason))
        self.stages = [joint.stage for joint in design.joints]
        self.member_metals = {member.id: member.metal for member in design.members}

    def hidden_later(self, joint: str) -> bool:
        """Tell whether another tube hides part of this joint."""
        return joint in self.covers

    def _measured(self, joint: Joint) -> Joint:
        walls = [member.wall_mm for part in joint.parts if (member := self._members.get(part))]
        outsides = [member.od_mm for part in joint.parts if (member := self._members.get(part))]
        update: dict[str, float] = {}
        if joint.thickness_mm is None and walls:
            update["thickness_mm"] = min(walls)
        if joint.diameter_mm is None and outsides:
            update["diameter_mm"] = min(outsides)
        return joint.model_copy(update=update) if update else joint

    def _metals(self, parts: Iterable[str]) -> tuple[str, ...]:
        return tuple(member.metal for part in parts if (member := self._members.get(part)))


def _number(joint: str) -> int | None:
    found = _NUMBER.search(joint)
    return int(found.group()) if found else None
