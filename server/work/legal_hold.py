"""Places a legal hold on a frame or lifts it, signed by an owner; while it stands, every page of the frame says so."""

from dataclasses import dataclass
from hashlib import sha256
from typing import Any, Literal, get_args

from server.evidence.canonical import canonical_line
from server.facts.legal_hold import LegalHold
from server.facts.moment import show_moment
from server.facts.registers import Registers
from server.record.reads import Reads
from server.record.written import Written
from server.work.known_serial import no_such_serial
from server.work.refusal import Refusal
from server.work.signature import Signing, signature
from server.work.telling import told_line
from server.work.told_once import told_before

Act = Literal["placed", "lifted"]
ACTS: tuple[Act, ...] = get_args(Act)


class HoldRefused(Refusal):
    """A hold that may not be placed or lifted as it was asked; each problem says why and what to do."""


@dataclass(frozen=True, slots=True)
class HoldAsked:
    """A hold about to be placed or lifted, with its reason and who signs."""

    frame: str
    act: str
    reason: str
    signings: tuple[Signing, ...]


def holds_on(registers: Registers, frame: str) -> tuple[LegalHold, ...]:
    """Give every line about holds on a frame, in the order they were told."""
    return tuple(each for each in registers.legal_holds.values() if each.frame == frame)


def standing_hold(registers: Registers, frame: str) -> LegalHold | None:
    """Give the hold that stands on a frame; none when it was never placed or has been lifted."""
    return frames_on_hold(registers).get(frame)


def frames_on_hold(registers: Registers) -> dict[str, LegalHold]:
    """Give every frame under hold with the line that placed it."""
    last = {each.frame: each for each in registers.legal_holds.values()}
    return {frame: each for frame, each in last.items() if each.act == "placed"}


def hold(reads: Reads, asked: HoldAsked, now_ms: int) -> Written[str]:
    """Append the line and answer its number; raises `HoldRefused`."""
    registers = reads.registers()
    paper = _paper(asked, reads.last_position() + 1, now_ms)
    if before := told_before(paper, holds_on(registers, asked.frame)[-1:], but=("at",)):
        return Written(answer=lambda _: before)
    problems = _wrong(asked, registers)
    if problems:
        raise HoldRefused(*problems)
    return Written(answer=lambda _: str(paper["id"]), lines=(told_line(paper, now_ms),))


def _paper(asked: HoldAsked, position: int, now_ms: int) -> dict[str, Any]:
    paper: dict[str, Any] = {
        "kind": "legal hold",
        "id": f"LH-{position}",
        "frame": asked.frame,
        "act": asked.act,
        "at": show_moment(now_ms),
        "reason": asked.reason.strip(),
    }
    shown = sha256(canonical_line(paper)).hexdigest()
    return paper | {"signatures": [signature(each, shown, now_ms) for each in asked.signings]}


def _wrong(asked: HoldAsked, registers: Registers) -> list[str]:
    problems = []
    standing = standing_hold(registers, asked.frame)
    if asked.frame not in registers.packets:
        unknown = no_such_serial(asked.frame, registers.packets, "serials stand in the history")
        problems.append(f"frame: {unknown}")
    if asked.act not in ACTS:
        problems.append(f"act: {asked.act!r}; one of {', '.join(ACTS)}")
    if asked.act == "placed" and standing:
        problems.append(f"{asked.frame} is under {standing.id} already; one hold is enough, its reason stands there")
    if asked.act == "lifted" and not standing:
        problems.append(f"{asked.frame} is under no hold, so there is nothing to lift")
    if len(asked.reason.strip()) < 3:
        problems.append("reason: too short; write who asked for it and why, so that a stranger understands")
    if "owner" not in {each.role for each in asked.signings}:
        problems.append("signature: a legal hold is placed and lifted by an owner")
    return problems
