"""Gives a permission: a hold point, the final inspection, a release, a shipment; or says exactly what it waits for."""

from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from server.evidence.canonical import canonical_line
from server.facts.log import LOG_ENTRY
from server.facts.moment import show_moment
from server.facts.registers import Registers
from server.facts.welding import Pass, Tack
from server.judgement.gates import AtTheGate, Gate, Reason, why_shut
from server.judgement.signing import DECIDERS
from server.record.entry_lines import entry_line
from server.record.lines import HOUSE, NewLine
from server.record.reads import Reads
from server.record.written import Written
from server.work.frame_history import FrameStory, frame_history
from server.work.legal_hold import standing_hold
from server.work.made_again import not_made_again
from server.work.open_tablets import open_tablets
from server.work.refusal import Refusal
from server.work.signature import Signing, signature
from server.work.telling import told_line
from server.work.touched import touched_by
from server.work.who_has_it import back_in_house

_FEW_LINES = 2000


class GateShut(Refusal):
    """A permission that is not given; each problem is one thing it waits for."""


@dataclass(frozen=True, slots=True)
class PermissionAsked:
    """Which permission, for which frame or joint, signed by whom; an override names its reason and takes two roles.

    A shipment names its customer; without one it goes to the customer of the job packet.
    """

    gate: Gate
    frame: str
    signings: tuple[Signing, ...]
    joint: str | None = None
    override: str = ""
    customer: str = ""
    seen_quarters: tuple[str, ...] = ("q12", "q3", "q6", "q9")


def reasons_shut(reads: Reads, asked: PermissionAsked) -> list[Reason]:
    """Give every reason why the gate stays shut, as known now."""
    return _reasons(reads, frame_history(reads, asked.frame), asked)


def permit(reads: Reads, asked: PermissionAsked, now_ms: int) -> Written[str]:
    """Append the permission and answer its id; raises `GateShut` with everything the gate waits for."""
    story = frame_history(reads, asked.frame)
    reasons = _reasons(reads, story, asked)
    if reasons and not asked.override:
        raise GateShut(*(reason.words for reason in reasons))
    problems = [*(_override_problems(asked) if reasons else []), *_never_given(reads, story, asked)]
    if problems:
        raise GateShut(*problems)
    told = _paper(asked, reasons, story.known_at, now_ms)
    lines: list[NewLine] = [told_line(told, now_ms)]
    if asked.gate == "hold point":
        lines.append(_looked_and_released(asked, story, now_ms))
    if asked.gate == "ship":
        lines.append(told_line(_shipment(asked, story, now_ms), now_ms))
    return Written(answer=lambda _: str(told["id"]), lines=lines)


def _reasons(reads: Reads, story: FrameStory, asked: PermissionAsked) -> list[Reason]:
    waits = _waits_for_tablets(reads.registers())
    open_on = [each.device for each in open_tablets(told.recorded for told in story.of_frame)] if waits else []
    shut = [*_not_judged_yet(reads, asked.frame), *_at_the_gate(story, asked, tuple(open_on))]
    if asked.gate == "hold point":
        return shut
    return [*shut, *not_made_again(story), *_held_by_paper(story), *_held_by_law(reads, asked)]


def _held_by_law(reads: Reads, asked: PermissionAsked) -> list[Reason]:
    held = standing_hold(reads.registers(), asked.frame) if asked.gate == "ship" else None
    return (
        [Reason(f"{asked.frame} is under legal hold {held.id}: {held.reason}. An owner lifts it first.")]
        if held
        else []
    )


def _not_judged_yet(reads: Reads, frame: str) -> list[Reason]:
    """What came in and is not judged could close the gate, so it waits; other frames' entries do not keep it shut."""
    judged, last = reads.judged_to(), reads.last_position()
    if last - judged <= _FEW_LINES:
        lines = reads.lines_between(judged + 1, last)
        if not lines or frame not in touched_by(reads, lines).frames:
            return []
    return [Reason("Something about this frame came in and is being judged; read this page again in a moment.")]


def _held_by_paper(story: FrameStory) -> list[Reason]:
    return [
        Reason(f"{subject} is held by {each.id}, {each.title}; close the nonconformity, or let the joint go there.")
        for each in story.nonconformities
        if each.closed is None
        for subject in each.held
        if subject.startswith(f"{story.packet.frame}/")
    ]


def _waits_for_tablets(registers: Registers) -> bool:
    """Whether the shop's acceptance file asks that every tablet that had a frame open is heard before it goes."""
    told = [each for each in registers.acceptance.values() if each.name == "tablets_heard"]
    return bool(told) and max(told, key=lambda each: each.valid_from).value >= 1


def _at_the_gate(story: FrameStory, asked: PermissionAsked, silent: tuple[str, ...]) -> list[Reason]:
    design_joints = [each.joint for each in story.joints]
    if asked.joint is not None and asked.joint not in {each.id for each in design_joints}:
        return [Reason(f"joint: {asked.joint!r} is no joint of {asked.frame}; its joints are on the frame picture.")]
    mine = [each for each in story.joints if asked.joint is None or each.joint.id == asked.joint]
    at = AtTheGate(
        gate=asked.gate,
        joints=tuple(each.id for each in design_joints if each.structural),
        progress=story.progress,
        matters=[m for j in story.joints for a in j.attempts for m in a.matters] + list(story.frame_matters),
        permissions=story.permissions,
        joint=asked.joint,
        by=asked.signings[0].person if asked.signings else None,
        silent_tablets=silent,
        welders=frozenset(
            told.entry.who
            for each in mine
            for attempt in each.attempts
            for told in attempt.told
            if isinstance(told.entry, Pass | Tack)
        ),
    )
    return why_shut(at)


def _never_given(reads: Reads, story: FrameStory, asked: PermissionAsked) -> list[str]:
    """What no override mends: nobody with the right has signed, the frame has left already, or nobody is to get it."""
    problems = []
    if not {each.role for each in asked.signings} & DECIDERS:
        problems.append("signature: a permission is signed by a quality lead or an owner")
    if asked.gate == "ship" and story.shipments and not back_in_house(reads, reads.registers(), [asked.frame]):
        problems.append(f"{asked.frame} has left the house already, {story.shipments[-1].id}")
    customer = asked.customer or story.packet.customer
    if asked.gate == "ship" and customer not in reads.registers().customers:
        problems.append(f"customer: {customer!r} is not in the register; name who the frame goes to")
    return problems


def _override_problems(asked: PermissionAsked) -> list[str]:
    roles = {each.role for each in asked.signings} & DECIDERS
    problems = []
    if asked.gate == "hold point":
        problems.append("a hold point is not overridden: look at the seam, or decide about what is open on it first")
    if len(asked.override.strip()) < 3:
        problems.append("override: write the reason; it is shown with this frame for ever")
    if roles != DECIDERS:
        problems.append("an override is signed by the owner and the quality lead, each with their own PIN")
    return problems


def _paper(asked: PermissionAsked, reasons: list[Reason], known_at: int, now_ms: int) -> dict[str, Any]:
    told: dict[str, Any] = {
        "kind": "permission",
        "id": f"P-{known_at + 1}-{asked.gate.replace(' ', '-')}",
        "permits": asked.gate,
        "frame": asked.frame,
        "known_at": known_at,
        "open_findings": sorted({reason.key for reason in reasons if reason.key}),
        "signatures": [
            signature(each, _shown(asked, reasons), now_ms, one_person=_one_person(asked)) for each in asked.signings
        ],
    }
    optional = {"joint": asked.joint, "reason": asked.override.strip()}
    return told | {name: value for name, value in optional.items() if value}


def _one_person(asked: PermissionAsked) -> bool:
    return len(asked.signings) > 1 and len({each.person for each in asked.signings}) == 1


def _shipment(asked: PermissionAsked, story: FrameStory, now_ms: int) -> dict[str, Any]:
    return {
        "kind": "shipment",
        "id": f"S-{story.known_at + 2}",
        "frame": asked.frame,
        "customer": asked.customer or story.packet.customer,
        "at": show_moment(now_ms),
    }


def _shown(asked: PermissionAsked, reasons: list[Reason]) -> str:
    shown = [asked.gate, asked.frame, asked.joint or "", *(reason.words for reason in reasons)]
    return sha256("\n".join(shown).encode()).hexdigest()


def _looked_and_released(asked: PermissionAsked, story: FrameStory, now_ms: int) -> NewLine:
    at = show_moment(now_ms)
    told = {
        "id": f"{HOUSE}:{story.known_at + 2}",
        "device": HOUSE,
        "seq": story.known_at + 2,
        "device_time": at,
        "happened": at,
        "who": asked.signings[0].person,
        "role": asked.signings[0].role,
        "kind": "release",
        "frame": asked.frame,
        "joint": asked.joint,
        "attempt": story.progress.joint(asked.joint or "").attempt,
        "quarters": list(asked.seen_quarters),
    }
    entry = LOG_ENTRY.validate_python(told)
    return entry_line(entry, canonical_line(told), device=HOUSE, delivery=None, received_ms=now_ms, sent_ms=None)
