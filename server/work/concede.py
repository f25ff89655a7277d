"""Gives a concession for what is made, or a deviation permit for what will be: named frames, a count, an expiry."""

from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from server.evidence.canonical import canonical_line
from server.facts.moment import show_moment
from server.facts.registers import Registers
from server.judgement.signing import DECIDERS
from server.record.reads import Reads
from server.record.written import Written
from server.work.refusal import Refusal, how_short
from server.work.signature import Signing, signature
from server.work.told_once import told_once


class ConcessionRefused(Refusal):
    """A concession that may not stand as it was asked for; each problem says why and what to do."""


@dataclass(frozen=True, slots=True)
class ConcessionAsked:
    """What is conceded: about which question, on which frames and joints, how often, until when, and who signs."""

    frames: tuple[str, ...]
    reason: str
    signings: tuple[Signing, ...]
    joints: tuple[str, ...] = ()
    question: str | None = None
    count: int | None = None
    expires_ms: int | None = None
    before: bool = False


def concede(reads: Reads, asked: ConcessionAsked, now_ms: int) -> Written[str]:
    """Append the concession and answer its id; raises `ConcessionRefused` with everything that is wrong with it."""
    registers = reads.registers()
    problems = [*_wrong_words(asked, registers, now_ms), *_wrong_signers(asked)]
    if problems:
        raise ConcessionRefused(*problems)
    told = _paper(asked, reads.last_position() + 1, now_ms)
    return told_once(told, registers.concessions.values(), now_ms)


def _wrong_words(asked: ConcessionAsked, registers: Registers, now_ms: int) -> list[str]:
    problems = [
        f"frames: {frame!r} is no serial the record knows; write serials as on their job packets"
        for frame in asked.frames
        if frame not in registers.packets
    ]
    if not asked.frames:
        problems.append("frames: none is named; a concession names the frames it is for")
    if asked.count is None or asked.count < 1:
        problems.append("count: say for how many frames it may be used, 1 or more; a concession has a count")
    if asked.expires_ms is None or asked.expires_ms <= now_ms:
        problems.append("expires: say until which day it may be used, a day to come; a concession has an expiry")
    if len(asked.reason.strip()) < 3:
        said = how_short(asked.reason)
        problems.append(f"reason: {said}; write the risk and why it may be borne, so that a stranger understands it")
    return problems


def _wrong_signers(asked: ConcessionAsked) -> list[str]:
    missing = DECIDERS - {each.role for each in asked.signings}
    return [f"signatures: still to sign: {' and '.join(sorted(missing))}; leave is given by both"] if missing else []


def _paper(asked: ConcessionAsked, position: int, now_ms: int) -> dict[str, Any]:
    told: dict[str, Any] = {
        "kind": "concession",
        "id": f"CN-{position}",
        "frames": list(asked.frames),
        "joints": list(asked.joints),
        "count": asked.count,
        "expires": show_moment(asked.expires_ms or now_ms),
        "before": asked.before,
        "reason": asked.reason.strip(),
    }
    if asked.question:
        told["question"] = asked.question
    shown = sha256(canonical_line(told)).hexdigest()
    alone = len({each.person for each in asked.signings}) == 1
    return told | {"signatures": [signature(each, shown, now_ms, one_person=alone) for each in asked.signings]}
