"""Finds the seams that are finished, will be hidden by another tube, and wait for somebody to look at them."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from server.facts.deciding import Permission
from server.facts.design import Design
from server.facts.frame_papers import permissions_of
from server.facts.progress import FrameProgress
from server.facts.recorded import Recorded
from server.facts.registers import Registers
from server.facts.welding import Pass
from server.plan.progress import frame_progress

_LEFT_THE_HOUSE = frozenset({"shipped", "scrapped"})


@dataclass(frozen=True, slots=True)
class HoldPoint:
    """A seam finished and not released, what waits for it, and since when [ms, UTC] its last pass is known."""

    frame: str
    joint: str
    title: str
    hidden_by: tuple[str, ...]
    since_ms: int


def hold_points(registers: Registers, told: dict[str, list[Recorded]]) -> tuple[HoldPoint, ...]:
    """Give the hold points that wait on these frames, from the frames' own entries."""
    found: list[HoldPoint] = []
    for frame, entries in told.items():
        design = registers.designs.get(registers.packets[frame].design)
        if design is not None and entries:
            progress = frame_progress(design, [each.entry for each in entries])
            arrived = {it.joint: each.received_ms for each in entries if isinstance(it := each.entry, Pass)}
            found += _waiting(frame, design, progress, permissions_of(registers, frame), arrived)
    return tuple(found)


def _waiting(
    frame: str,
    design: Design,
    progress: FrameProgress,
    permissions: Iterable[Permission],
    arrived: Mapping[str, int],
) -> Sequence[HoldPoint]:
    if _LEFT_THE_HOUSE & set(progress.stages):
        return ()
    released = {each.joint for each in permissions if each.permits == "hold point"}
    hiding: dict[str, set[str]] = {}
    for cover in design.covers:
        hiding.setdefault(cover.seam, set()).add(cover.by)
    return [
        HoldPoint(frame, joint.id, joint.title, tuple(sorted(hiding[joint.id])), arrived.get(joint.id, 0))
        for joint in design.joints
        if joint.id in hiding
        and progress.joint(joint.id).finished
        and not progress.joint(joint.id).released
        and joint.id not in released
    ]
