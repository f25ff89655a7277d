"""Which frames have to be judged again because of new lines, and whether what frames share has to."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from server.evidence.chain_subject import ChainSubject
from server.facts.checking import Coupon
from server.facts.log import LOG_ENTRY, AnyEntry
from server.facts.passage import Correction
from server.facts.welding import Pass
from server.record.lines import StoredLine
from server.record.reads import Reads

_A_DAY_MS = 86_400_000
_CARRIES = {"who", "welder", "happened", "result"}
# A seal, a draw, a second look and a file change no verdict; a nonconformity opened by a look is its own line.
_NOTHING = frozenset({"customer", "ownership", "shop", "continuation", "claim", "claim step", "door change"})
_NOTHING |= {"customer number", "details removed", "stand-in", "seal", "sample draw", "second look", "certificate file"}
_REACH = {
    "bead": ("gas line",),
    "cylinder": ("gas line",),
    "coupon": ("welder",),
    "sleeve": ("sleeve",),
    "check": ("gas line", "instrument"),
    "reading": ("gas line", "instrument"),
    "qualification": ("welder",),
    "calibration": ("instrument",),
    "rod sleeve": ("sleeve",),
    "correction": ("gas line", "instrument", "sleeve"),
    "packet": (),
    "piece": (),
    "shipment": (),
    "permission": (),
    "decision": (),
    "concession": (),
    "nonconformity": (),
}


Subjects = Mapping[int, tuple[ChainSubject, ...]]
"""In whose chains lines stand, by their positions."""


class Touched(NamedTuple):
    """The frames to judge again; `shared` tells whether gas lines, instruments and their like are as well."""

    frames: frozenset[str]
    shared: bool


def touched_by(reads: Reads, lines: Iterable[StoredLine]) -> Touched:
    """Tell what some new lines touch: their own frame, and every frame that used the gas, rod, instrument they name.

    A pass touches what was welded on the same gas line that day, since who came first in a shift is asked more.
    A pass a day late, or one put right after a day, may carry a qualification by use over days already judged, so it
    touches its welder's.
    What reaches further than a name (a procedure, an acceptance figure, a narrowing) touches every frame.
    """
    new = [line for line in lines if line.kind not in _NOTHING]
    if any(_reach(line) is None for line in new):
        return Touched(frozenset(reads.registers().packets), True)
    subjects = reads.subjects_of([line.position for line in new])
    named = {line.frame for line in new if line.frame}
    named |= {each.id for found in subjects.values() for each in found if each.kind == "frame"}
    reached = {
        each
        for line in new
        if line.frame is None
        for each in subjects.get(line.position, ())
        if each.kind in (_reach(line) or ())
    }
    if any(each.continuity == "used" for each in reads.registers().qualifications.values()):
        reached |= _carried_otherwise(reads, new, subjects)
    named |= reads.frames_with(reached)
    named |= reads.frames_beside(line.position for line in new if line.entry_kind == "pass")
    named |= reads.frames_of_boots(line.position for line in new if line.kind == "entry")
    return Touched(frozenset(named), bool(new))


def _carried_otherwise(reads: Reads, new: Iterable[StoredLine], subjects: Subjects) -> set[ChainSubject]:
    """Give the welders whose days may be carried otherwise by a pass that came late, or that is put right late."""
    late = (line for line in new if line.entry_kind == "pass" and _is_old(line.happened_ms, line))
    welders = {each for line in late for each in subjects.get(line.position, ()) if each.kind == "welder"}
    for line in new:
        if line.entry_kind == "correction" and line.state != "taken, not understood":
            welders |= {ChainSubject("welder", who) for who in _welders_put_right(reads, line)}
    return welders


def _welders_put_right(reads: Reads, line: StoredLine) -> set[str]:
    """Whose pass of days ago, or coupon, is put right or moved in time, and whose it is said to be; no other change
    of it carries anybody."""
    told: AnyEntry | None = LOG_ENTRY.validate_json(line.body)
    said: list[object] = []
    seen, moved = set[str](), False
    # A correction may be put right too; two that name each other mend nothing.
    while isinstance(told, Correction) and told.id not in seen and (told.withdraw or told.change.keys() & _CARRIES):
        seen.add(told.id)
        said += [told.change.get("who"), told.change.get("welder")]
        moved = moved or "happened" in told.change
        told = next((each.entry for each in reads.entries_named([told.of])), None)
    if isinstance(told, Pass | Coupon) and (moved or _is_old(told.happened, line)):
        said.append(told.who if isinstance(told, Pass) else told.welder)
        return {each for each in said if isinstance(each, str)}
    return set()


def _is_old(happened_ms: int | None, line: StoredLine) -> bool:
    """Tell whether something came so much later that the days it may carry a qualification over were judged."""
    return happened_ms is not None and line.received_ms - happened_ms > _A_DAY_MS


def _reach(line: StoredLine) -> tuple[str, ...] | None:
    name = line.entry_kind if line.kind == "entry" else line.kind
    if line.state == "taken, not understood":
        return ()
    return _REACH.get(name or "", () if line.kind == "entry" else None)

