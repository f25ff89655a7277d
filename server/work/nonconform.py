"""Opens a nonconformity, or tells it anew with more known: what is found, held, contained, its cause, what is done."""

from collections.abc import Iterable
from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from server.evidence.canonical import canonical_line
from server.facts.deciding import Nonconformity
from server.facts.moment import show_moment
from server.facts.registers import Registers
from server.facts.subject import read_joint_subject
from server.judgement.signing import DECIDERS
from server.record.reads import Reads
from server.record.written import Written
from server.work.refusal import Refusal, how_short
from server.work.signature import Signing, signature
from server.work.telling import told_line
from server.work.told_once import told_before


class NonconformityRefused(Refusal):
    """A nonconformity that may not stand as it was told; each problem says why and what to do."""


@dataclass(frozen=True, slots=True)
class NonconformityTold:
    """A nonconformity as it stands now; without a number a new one is opened.

    `seen_position` is where its last telling stands in the record, so that nobody writes over what they have not read.
    """

    title: str
    signings: tuple[Signing, ...]
    number: str = ""
    seen_position: int = 0
    findings: tuple[str, ...] = ()
    held: tuple[str, ...] = ()
    containment: str = ""
    cause: str = ""
    action: str = ""
    recurred: str = ""
    close: bool = False


def nonconform(reads: Reads, told: NonconformityTold, now_ms: int) -> Written[str]:
    """Append the nonconformity as told and answer its number; raises `NonconformityRefused`."""
    registers = reads.registers()
    paper = _paper(told, reads.last_position() + 1, now_ms)
    if before := told_before(paper, _like(told, registers), but=("closed",)):
        return Written(answer=lambda _: before)
    problems = [*_wrong_words(told), *_wrong_joints(told, registers), *_overtaken(told, registers)]
    if problems:
        raise NonconformityRefused(*problems)
    return Written(answer=lambda _: str(paper["id"]), lines=(told_line(paper, now_ms),))


def _like(told: NonconformityTold, registers: Registers) -> Iterable[Nonconformity]:
    """Give what may be the very same: what stands under its number, or any other where it has none yet."""
    named = registers.nonconformities.get(told.number)
    known = registers.nonconformities.values() if not told.number else [named] if named else []
    return (each for each in known if (each.closed is not None) == told.close)


def _wrong_words(told: NonconformityTold) -> list[str]:
    problems = []
    if len(told.title.strip()) < 3:
        problems.append(f"title: {how_short(told.title)}; say in one line what does not conform")
    if told.close:
        steps = {"containment": told.containment, "cause": told.cause, "action": told.action}
        missing = [f"{name}: {how_short(words)}" for name, words in steps.items() if len(words.strip()) < 3]
        problems += [f"{each}; a nonconformity is closed with containment, cause and action" for each in missing]
    if not {each.role for each in told.signings} & DECIDERS:
        problems.append("signature: a nonconformity is signed by a quality lead or an owner")
    return problems


def _wrong_joints(told: NonconformityTold, registers: Registers) -> list[str]:
    problems = []
    for each in told.held:
        joint = read_joint_subject(each)
        if joint is None or joint.frame not in registers.packets:
            problems.append(f"held: {each!r} is no joint of a known frame; write serial/joint#attempt, as F-7/A#1")
    return problems


def _overtaken(told: NonconformityTold, registers: Registers) -> list[str]:
    if not told.number:
        return []
    if told.number not in registers.nonconformities:
        return [f"number: {told.number!r} is no nonconformity the record knows"]
    if registers.positions.get(f"nonconformity:{told.number}", 0) != told.seen_position:
        return [f"{told.number} was told anew while you wrote; read it again, then sign", *_now_reads(told, registers)]
    return []


def _now_reads(told: NonconformityTold, registers: Registers) -> list[str]:
    """Say what stands there now in other words than those about to be signed over it."""
    stands = registers.nonconformities[told.number]
    mine = {"title": told.title, "findings": ", ".join(told.findings), "held": ", ".join(told.held)}
    mine |= {"containment": told.containment, "cause": told.cause, "action": told.action, "recurred": told.recurred}
    theirs = {name: stands.told(name) or "" for name in mine}
    theirs |= {name: ", ".join(theirs[name]) for name in ("findings", "held")}
    other = [f"{name} now reads: {said or 'nothing'}" for name, said in theirs.items() if said != mine[name].strip()]
    return [*other, *(["it is closed now"] if stands.closed is not None and not told.close else [])]


def _paper(told: NonconformityTold, position: int, now_ms: int) -> dict[str, Any]:
    paper: dict[str, Any] = {
        "kind": "nonconformity",
        "id": told.number or f"NC-{position}",
        "title": told.title.strip(),
        "findings": list(told.findings),
        "held": list(told.held),
    }
    words = {"containment": told.containment, "cause": told.cause, "action": told.action, "recurred": told.recurred}
    paper |= {name: said.strip() for name, said in words.items() if said.strip()}
    if told.close:
        paper["closed"] = show_moment(now_ms)
    shown = sha256(canonical_line(paper)).hexdigest()
    return paper | {"signatures": [signature(each, shown, now_ms) for each in told.signings]}
