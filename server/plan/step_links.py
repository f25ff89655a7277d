"""What has to come before what, and why: the links between the steps of a frame, and a loop among them."""

from graphlib import CycleError, TopologicalSorter
from itertools import pairwise
from typing import Literal, NamedTuple

from server.facts.design import Design
from server.plan.steps import HOURS, STATES, every_step, landing_title


class Link(NamedTuple):
    """`first` comes before `step`; `of` and `entry` say which line of the design asks for it."""

    step: str
    first: str
    reason: str
    of: Literal["joints", "covers", "needs"]
    entry: int

    def __str__(self) -> str:
        """The link as a sentence."""
        return f"{self.step} waits for {self.first}, because {self.reason}"


def links(design: Design) -> list[Link]:
    """Every link: along each seam, from its covers, and from what the design says is needed."""
    return [*_along_the_seams(design), *_from_covers(design), *_from_needs(design)]


def loop_in(design: Design) -> list[Link]:
    """The links of one loop, each waiting for the next; none when the steps can be put in an order."""
    known = {(link.step, link.first): link for link in reversed(links(design))}
    waits: dict[str, set[str]] = {step: set() for step in every_step(design)}
    for step, first in known:
        waits.setdefault(step, set()).add(first)
    try:
        TopologicalSorter(waits).prepare()
    except CycleError as loop:
        around = loop.args[1]
        return [known[step, first] for first, step in pairwise(around)][::-1]
    return []


def _along_the_seams(design: Design) -> list[Link]:
    return [
        Link(f"{joint.id}:{later}", f"{joint.id}:{earlier}", f"a seam is {earlier} before it is {later}", "joints", i)
        for i, joint in enumerate(design.joints)
        for earlier, later in pairwise(STATES)
    ]


def _from_covers(design: Design) -> list[Link]:
    joints = {joint.id: joint for joint in design.joints}
    return [
        Link(
            f"{cover.by}:tacked",
            f"{cover.seam}:released",
            f"the {landing_title(design, joints[cover.by])} would hide {HOURS[cover.quarter]} of {cover.seam}",
            "covers",
            i,
        )
        for i, cover in enumerate(design.covers)
    ]


def _from_needs(design: Design) -> list[Link]:
    return [
        Link(need.step, first, need.reason, "needs", i) for i, need in enumerate(design.needs) for first in need.first
    ]
