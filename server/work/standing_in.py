"""Lets somebody stand in for an absent person for a while, and ends it: both are signed lines."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from hashlib import sha256
from typing import Any

from server.evidence.canonical import canonical_line
from server.facts.moment import show_moment
from server.facts.registers import Registers
from server.judgement.signing import DECIDERS
from server.record.reads import Reads
from server.record.written import Written
from server.work.acting import acting, standing_in
from server.work.refusal import NotThere, Refusal, how_short
from server.work.signature import Signing, signature
from server.work.telling import told_line
from server.work.told_once import ToldBefore, told_before


class StandInRefused(Refusal):
    """A standing-in that may not be given so; each problem says why and what to do."""


@dataclass(frozen=True, slots=True)
class StandInAsked:
    """Who is to stand in for the signer, until when [ms, UTC], and why."""

    person: str
    until_ms: int | None
    reason: str
    signing: Signing


def as_standing_in(registers: Registers, signing: Signing, at_ms: int) -> Signing:
    """Give a signing whose meaning says for whom it stands in; one in a role of the person's own stays as it is."""
    own = registers.people.get(signing.person)
    if own is None or signing.role in own.roles:
        return signing
    held = (each for each in standing_in(registers, at_ms) if (each.person, each.role) == (own.id, signing.role))
    found = next(held, None)
    return replace(signing, meaning=f"{signing.meaning}, standing in for {found.absent}") if found else signing


def let_stand_in(reads: Reads, asked: StandInAsked, now_ms: int) -> Written[str]:
    """Append that somebody stands in for the signer from now on, and answer its id; raises `StandInRefused`."""
    registers = reads.registers()
    told = _letting(asked, reads.last_position() + 1, now_ms)
    if before := told_before(told, standing_in(registers, now_ms), but=("since",)):
        return Written(answer=lambda _: before)
    if problems := [*_wrong_person(registers, asked, now_ms), *_wrong_words(asked, now_ms)]:
        raise StandInRefused(*problems)
    return Written(answer=lambda _: str(told["id"]), lines=(told_line(told, now_ms),))


def _letting(asked: StandInAsked, position: int, now_ms: int) -> dict[str, Any]:
    told = {
        "kind": "stand-in",
        "id": f"SI-{position}",
        "person": asked.person,
        "absent": asked.signing.person,
        "role": asked.signing.role,
        "since": show_moment(now_ms),
        "until": show_moment(now_ms if asked.until_ms is None else asked.until_ms),
        "reason": asked.reason.strip(),
    }
    return _signed(told, asked.signing, now_ms)


def end_stand_in(reads: Reads, which: str, signing: Signing, now_ms: int) -> Written[str]:
    """Append that a standing-in is over, signed by the absent person or an owner; raises `NotThere` or a refusal."""
    registers = reads.registers()
    if before := _ended(registers, which, signing):
        return Written(answer=lambda _: before)
    found = next((each for each in standing_in(registers, now_ms) if each.id == which), None)
    if found is None:
        raise NotThere(f"{which!r} does not hold now; the list shows what does.")
    signer = registers.people.get(signing.person)
    if signing.person != found.absent and (signer is None or "owner" not in signer.roles):
        raise StandInRefused(f"{found.id} is ended by {found.absent}, or by an owner")
    told = found.model_dump(include={"person", "absent", "role", "kind"}) | {
        "id": f"SI-{reads.last_position() + 1}",
        "since": show_moment(now_ms),
        "until": show_moment(now_ms),
        "reason": f"{found.absent} acts again",
        "ends": found.id,
    }
    paper = _signed(told, signing, now_ms)
    return Written(answer=lambda _: str(told["id"]), lines=(told_line(paper, now_ms),))


def _ended(registers: Registers, which: str, signing: Signing) -> ToldBefore | None:
    """Give the line by which the same person ended it before."""
    ends = (each for each in registers.stand_ins.values() if each.ends == which)
    return next((ToldBefore(each.id) for each in ends if each.signatures[0].person == signing.person), None)


def _wrong_person(registers: Registers, asked: StandInAsked, now_ms: int) -> Iterator[str]:
    signer, chosen = registers.people.get(asked.signing.person), registers.people.get(asked.person)
    role = asked.signing.role
    if signer is None or role not in signer.roles or role not in DECIDERS:
        yield f"role: {role!r} is not the signer's own; who stands in for somebody cannot pass it on"
    if chosen is None or chosen.left:
        yield f"person: {asked.person!r} does not work here; choose a name from the list"
    elif role in acting(registers, chosen, now_ms).roles:
        yield f"person: {chosen.name} holds the role {role} already; nobody has to stand in"


def _wrong_words(asked: StandInAsked, now_ms: int) -> Iterator[str]:
    if asked.until_ms is None or asked.until_ms <= now_ms:
        yield "until: say the last day, one to come; a standing-in ends by itself"
    if len(asked.reason.strip()) < 3:
        yield f"reason: {how_short(asked.reason)}; a word such as holiday or illness is enough"


def _signed(told: dict[str, Any], signing: Signing, now_ms: int) -> dict[str, Any]:
    shown = sha256(canonical_line(told)).hexdigest()
    return told | {"signatures": [signature(signing, shown, now_ms)]}
