"""Tells what a second look at a drawn joint found; where it found something a nonconformity holds the joint at once."""

from collections.abc import Sequence
from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from server.evidence.canonical import canonical_line
from server.facts.second_look import Outcome, SampleDraw
from server.facts.subject import read_joint_subject
from server.facts.welding import Pass, Tack
from server.judgement.signing import DECIDERS
from server.record.lines import NewLine
from server.record.reads import Reads
from server.record.written import Written
from server.work.nonconform import NonconformityTold, nonconform
from server.work.refusal import NotThere, Refusal
from server.work.signature import Signing, signature
from server.work.telling import told_line
from server.work.told_once import told_before


class LookRefused(Refusal):
    """A second look that may not stand as it was told; each problem says why and what to do."""


@dataclass(frozen=True, slots=True)
class LookTold:
    """What was found on one drawn joint, in words that say how it was looked at, signed."""

    draw: str
    subject: str
    outcome: Outcome
    words: str
    signings: tuple[Signing, ...]


def tell_second_look(reads: Reads, told: LookTold, now_ms: int) -> Written[str]:
    """Append the look, and the nonconformity where something was found; answers the look's id."""
    draw = reads.registers().sample_draws.get(told.draw)
    if draw is None or told.subject not in draw.drawn:
        raise NotThere(f"{told.subject!r} was not drawn in {told.draw!r}; choose one of the joints on its sheet")
    if problems := [*_wrong(told), *_own_weld(reads, told)]:
        raise LookRefused(*problems)
    opened: Sequence[NewLine] = ()
    paper: dict[str, Any] = {"kind": "second look", "id": f"SL-{reads.last_position() + 1}", "draw": told.draw}
    paper |= {"subject": told.subject, "outcome": told.outcome, "words": told.words.strip()}
    looks = reads.registers().second_looks.values()
    if before := told_before(_signed(paper, told, now_ms), looks, but=("nonconformity",)):
        return Written(answer=lambda _: before)
    if told.outcome == "found":
        nonconformity = nonconform(reads, _held(told, draw), now_ms)
        opened, paper["nonconformity"] = nonconformity.lines, f"NC-{reads.last_position() + 1}"
    return Written(
        answer=lambda _: str(paper["id"]), lines=(*opened, told_line(_signed(paper, told, now_ms), now_ms))
    )


def _signed(paper: dict[str, Any], told: LookTold, now_ms: int) -> dict[str, Any]:
    shown = sha256(canonical_line(paper)).hexdigest()
    return paper | {"signatures": [signature(each, shown, now_ms) for each in told.signings]}


def _wrong(told: LookTold) -> list[str]:
    problems = []
    if len(told.words.strip()) < 3:
        problems.append("words: empty; say how the joint was looked at and what was seen")
    if not {each.role for each in told.signings} & DECIDERS:
        problems.append("signature: a second look is signed by a quality lead or an owner")
    return problems


def _own_weld(reads: Reads, told: LookTold) -> list[str]:
    joint = read_joint_subject(told.subject)
    entries = [each.entry for each in reads.frame_entries(joint.frame)] if joint else []
    welded_by = {
        it.who
        for it in entries
        if isinstance(it, Pass | Tack) and joint and (it.joint, it.attempt) == (joint.joint, joint.attempt)
    }
    own = [each.person for each in told.signings if each.person in welded_by]
    return [f"signature: {each} welded this joint; somebody else looks at it" for each in own]


def _held(told: LookTold, draw: SampleDraw) -> NonconformityTold:
    name = f"Second look at {told.subject}, drawn for {draw.week}: {told.words.strip()}"
    return NonconformityTold(title=name[:200], signings=told.signings, held=(told.subject,))
