"""Opens a claim and adds to it, in its own file; a claim alters nothing of the weld record."""

from dataclasses import dataclass
from hashlib import sha256
from typing import Any, NamedTuple, get_args

from server.evidence.canonical import canonical_line
from server.facts.claim import Claim, ClaimStep, Settled, StepKind
from server.facts.design import Design
from server.facts.entry import QUARTERS
from server.facts.looked_up import gathered
from server.facts.moment import show_moment
from server.facts.registers import Registers
from server.judgement.signing import DECIDERS
from server.record.reads import Reads
from server.record.written import Written
from server.work.known_serial import no_such_serial
from server.work.refusal import NotThere, Refusal
from server.work.signature import Signing, signature
from server.work.told_once import told_once

STEPS: tuple[StepKind, ...] = get_args(StepKind)
SETTLED: tuple[Settled, ...] = get_args(Settled)
BOTH_ROLES: frozenset[Settled] = frozenset({"repair", "replace", "refused", "field action"})
"""Decisions in a claim that the quality lead and the owner both sign."""
_LEAST_WORDS = 3


class ClaimRefused(Refusal):
    """A claim that may not stand as it was told; each problem says why and what to do."""


@dataclass(frozen=True, slots=True)
class ClaimTold:
    """A claim about to be opened."""

    serial: str
    joint: str
    quarter: str
    reported_by: str
    reported_ms: int
    knew_ms: int
    symptom: str
    written_by: str


@dataclass(frozen=True, slots=True)
class StepTold:
    """A step about to be added; a decision is signed, everything else is only written down by somebody."""

    claim: str
    step: str
    at_ms: int
    words: str
    written_by: str
    to: str = ""
    serial: str = ""
    files: tuple[str, ...] = ()
    settled: str = ""
    signings: tuple[Signing, ...] = ()


class ClaimFile(NamedTuple):
    """A claim with its steps in the order of time."""

    claim: Claim
    steps: tuple[ClaimStep, ...]

    def of(self, *kinds: StepKind) -> list[ClaimStep]:
        """Give the steps of some kinds."""
        return [each for each in self.steps if each.step in kinds]


def claim_file(registers: Registers, number: str) -> ClaimFile:
    """Give one claim; raises `NotThere` for a number no claim has."""
    claim = registers.claims.get(number)
    if claim is None:
        raise NotThere(f"{number!r} is no claim the record knows; claims are listed under claims")
    steps = gathered(registers, "claim steps", registers.claim_steps, lambda each: [each.claim]).get(number, ())
    return ClaimFile(claim, tuple(sorted(steps, key=lambda each: each.at)))


def open_claim(reads: Reads, told: ClaimTold, now_ms: int) -> Written[str]:
    """Append the claim and answer its number; raises `ClaimRefused`."""
    registers = reads.registers()
    problems = [*_wrong_place(told, registers), *_wrong_times(told, now_ms), *_too_short("symptom", told.symptom)]
    problems += _too_short("reported by", told.reported_by) or _no_customer("reported by", told.reported_by, registers)
    if problems:
        raise ClaimRefused(*problems)
    paper: dict[str, Any] = {
        "kind": "claim",
        "id": f"W-{reads.last_position() + 1}",
        "serial": told.serial,
        "reported_by": told.reported_by.strip(),
        "reported": show_moment(told.reported_ms),
        "knew": show_moment(told.knew_ms),
        "symptom": told.symptom.strip(),
        "written_by": told.written_by,
    }
    paper |= {name: said for name, said in (("joint", told.joint), ("quarter", told.quarter)) if said}
    return told_once(paper, registers.claims.values(), now_ms)


def add_step(reads: Reads, told: StepTold, now_ms: int) -> Written[str]:
    """Append one step to a claim and answer the step's number; raises `ClaimRefused`."""
    registers = reads.registers()
    steps = claim_file(registers, told.claim).steps
    problems = [*_wrong_step(told, registers, now_ms), *_too_short("words", told.words)]
    if problems:
        raise ClaimRefused(*problems)
    paper: dict[str, Any] = {
        "kind": "claim step",
        "id": f"{told.claim}/{reads.last_position() + 1}",
        "claim": told.claim,
        "step": told.step,
        "at": show_moment(told.at_ms),
        "words": told.words.strip(),
        "written_by": told.written_by,
    }
    more: dict[str, Any] = {"to": told.to.strip(), "serial": told.serial.strip()}
    more |= {"file_sha256": next(iter(told.files), ""), "more_files": list(told.files[1:])}
    more["settled"] = told.settled if told.step == "decision" else ""
    paper |= {name: said for name, said in more.items() if said}
    shown = sha256(canonical_line(paper)).hexdigest()
    if told.signings:
        paper["signatures"] = [signature(each, shown, now_ms) for each in told.signings]
    return told_once(paper, steps, now_ms)


def _wrong_place(told: ClaimTold, registers: Registers) -> list[str]:
    packet = registers.packets.get(told.serial)
    if packet is None:
        otherwise = "serials stand in the history, where a part of one finds it"
        return [f"serial: {no_such_serial(told.serial, registers.packets, otherwise)}"]
    design: Design | None = registers.designs.get(packet.design)
    if told.joint and design and told.joint not in {each.id for each in design.joints}:
        return [f"joint: {told.joint!r} is no joint of {told.serial}; choose one on its picture, or leave it empty"]
    if told.quarter and told.quarter not in QUARTERS:
        return [f"quarter: {told.quarter!r}; one of {', '.join(QUARTERS)}, or empty"]
    return []


def _wrong_times(told: ClaimTold, now_ms: int) -> list[str]:
    if told.knew_ms > now_ms:
        return [f"knew: {show_moment(told.knew_ms)} has not come yet; write when anybody of the shop first knew"]
    if told.reported_ms > now_ms:
        return [f"reported: {show_moment(told.reported_ms)} has not come yet; write when it was reported"]
    return []


def _wrong_step(told: StepTold, registers: Registers, now_ms: int) -> list[str]:
    problems = []
    if told.step not in STEPS:
        problems.append(f"step: {told.step!r} is none; one of {', '.join(STEPS)}")
    if told.at_ms > now_ms:
        problems.append(f"at: {show_moment(told.at_ms)} has not come yet; write when it happened")
    if told.serial and told.serial not in registers.packets:
        problems.append(f"serial: {told.serial!r} is no serial the record knows; leave it empty for the claimed frame")
    if told.step in ("containment", "letter") and not told.to.strip():
        problems.append(f"to: empty; a {told.step} names who was told")
    problems += _no_customer("to", told.to, registers)
    return problems + (_wrong_decision(told) if told.step == "decision" else [])


def _wrong_decision(told: StepTold) -> list[str]:
    roles = {each.role for each in told.signings} & DECIDERS
    if told.settled not in SETTLED:
        return [f"settled: {told.settled!r}; say what is decided, one of {', '.join(SETTLED)}"]
    if not roles:
        return ["signature: a decision is signed by a quality lead or an owner"]
    if told.settled in BOTH_ROLES and roles != DECIDERS:
        missing = " and ".join(sorted(DECIDERS - roles))
        return [f"signature: {told.settled} is signed in both roles; still to sign: {missing}"]
    return []


def _no_customer(name: str, said: str, registers: Registers) -> list[str]:
    """What is written like a customer's number and is none was mistyped: nobody would know whom it means."""
    kind, dash, number = said.strip().rpartition("-")
    known = registers.customers
    alike = bool(dash) and number.isdigit() and any(each.rpartition("-")[0] == kind for each in known)
    if not alike or said.strip() in known:
        return []
    return [f"{name}: {said.strip()!r} is no customer's number the record knows; the frame's history names who has it"]


def _too_short(name: str, said: str) -> list[str]:
    return (
        []
        if len(said.strip()) >= _LEAST_WORDS
        else [f"{name}: {said!r} is too short; write it so that a stranger understands"]
    )
