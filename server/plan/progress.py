"""How far a frame has come, told from its entries."""

from collections.abc import Iterable

from server.facts.checking import Geometry
from server.facts.design import Design, Joint
from server.facts.entry import QUARTERS, JointEntry, Quarter
from server.facts.log import AnyEntry
from server.facts.passage import Correction, Release, StageReached
from server.facts.progress import FrameProgress, JointProgress
from server.facts.welding import Pass, Removed, Tack


def frame_progress(design: Design, entries: Iterable[AnyEntry]) -> FrameProgress:
    """Tell the progress from one frame's entries in the order they happened; withdrawn ones count as never made."""
    told = list(entries)
    withdrawn = {entry.of for entry in told if isinstance(entry, Correction) and entry.withdraw}
    told = [entry for entry in told if entry.id not in withdrawn]
    joints = {joint.id: _joint(joint, [e for e in told if _about(e, joint)]) for joint in design.joints}
    return FrameProgress(
        joints={name: _covered(name, joint, design, joints) for name, joint in joints.items()},
        geometry={entry.check: entry.result for entry in told if isinstance(entry, Geometry)},
        stages=tuple(entry.stage for entry in told if isinstance(entry, StageReached)),
    )


def _about(entry: AnyEntry, joint: Joint) -> bool:
    return isinstance(entry, JointEntry) and entry.joint == joint.id


def _joint(joint: Joint, entries: list[AnyEntry]) -> JointProgress:
    now = JointProgress()
    for entry in entries:
        now = _after(now, entry)
    return now.model_copy(update={"finished": _finished(joint, now)})


def _after(now: JointProgress, entry: AnyEntry) -> JointProgress:
    if isinstance(entry, JointEntry) and entry.attempt < now.attempt:
        return now
    if isinstance(entry, Removed):
        return _cut_out(now, entry)
    if isinstance(entry, Tack):
        fresh = JointProgress(attempt=entry.attempt) if entry.attempt > now.attempt else now
        return fresh.model_copy(update={"tacked": not entry.removed})
    if isinstance(entry, Pass):
        over = _in_order({*now.runs.get(entry.run, ()), *entry.quarters})
        later = max(now.attempt, entry.attempt)
        return now.model_copy(update={"runs": {**now.runs, entry.run: over}, "attempt": later})
    if isinstance(entry, Release):
        return now.model_copy(update={"released": True})
    return now


def _cut_out(now: JointProgress, removed: Removed) -> JointProgress:
    if set(removed.quarters) == set(QUARTERS):
        return JointProgress(attempt=removed.attempt + 1)
    left = {run: _in_order(set(over) - set(removed.quarters)) for run, over in now.runs.items()}
    return now.model_copy(update={"runs": left, "released": False, "attempt": removed.attempt + 1})


def _finished(joint: Joint, now: JointProgress) -> bool:
    mended = now.runs.get("repair", ())
    return all({*now.runs.get(run, ()), *mended} == set(QUARTERS) for run in joint.runs)


def _covered(name: str, joint: JointProgress, design: Design, joints: dict[str, JointProgress]) -> JointProgress:
    under = {c.quarter for c in design.covers if c.seam == name and (joints[c.by].tacked or joints[c.by].welded)}
    return joint.model_copy(update={"covered": _in_order(under)})


def _in_order(quarters: Iterable[str]) -> tuple[Quarter, ...]:
    chosen = set(quarters)
    return tuple(quarter for quarter in QUARTERS if quarter in chosen)
