"""Makes a suspect set smaller by a fact, signed; undone only by another narrowing that names it."""

from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from server.evidence.canonical import canonical_line
from server.facts.deciding import Narrowing
from server.facts.registers import Registers
from server.facts.subject import read_joint_subject
from server.facts.suspect import SuspectSet
from server.facts.welding import Pass
from server.judgement.signing import DECIDERS
from server.record.reads import Reads
from server.record.written import Written
from server.work.refusal import Refusal, how_short
from server.work.signature import Signing, signature
from server.work.suspect_sets import BY, Offer, OneSet
from server.work.telling import told_line
from server.work.told_once import told_before


class NarrowingRefused(Refusal):
    """A narrowing that may not stand as it was asked for; each problem says why and what to do."""


@dataclass(frozen=True, slots=True)
class NarrowingAsked:
    """Which failed check's set, by which fact, what stays in, why, and who signs; or which narrowing it undoes."""

    check: str
    by: str
    fact: str
    reason: str
    signings: tuple[Signing, ...]
    keeps: tuple[str, ...] = ()
    undoes: str = ""


def narrow(reads: Reads, asked: NarrowingAsked, found: OneSet, now_ms: int) -> Written[str]:
    """Append the narrowing of a set, as it was found before the writer's turn, and answer its id.

    Raises `NarrowingRefused` with everything that is wrong with it.
    """
    told = _paper(asked, _offer_of(asked, found), reads.last_position() + 1, now_ms)
    # What the first of two lets out is on offer no more when the second comes.
    if before := told_before(told, _standing(reads.registers(), asked.check), but=("lets_out", "rests_on")):
        return Written(answer=lambda _: before)
    about = _wrong_undoing(asked, reads.registers()) if asked.undoes else _wrong_fact(reads, asked, found)
    problems = [*_wrong_signing(asked), *about, *_own_welds(reads, asked, found)]
    if problems:
        raise NarrowingRefused(*problems)
    return Written(answer=lambda _: str(told["id"]), lines=(told_line(told, now_ms),))


def _standing(registers: Registers, check: str) -> list[Narrowing]:
    signed = [each for each in registers.narrowings.values() if each.check == check]
    undone = {each.undoes for each in signed}
    return [each for each in signed if each.id not in undone]


def _wrong_signing(asked: NarrowingAsked) -> list[str]:
    problems = []
    if len(asked.reason.strip()) < 3:
        said = how_short(asked.reason)
        problems.append(f"reason: {said}; write what the fact shows, so that a stranger understands it years later")
    if not {each.role for each in asked.signings} & DECIDERS:
        problems.append("signature: a set is narrowed by a quality lead or an owner")
    return problems


def _wrong_fact(reads: Reads, asked: NarrowingAsked, found: OneSet) -> list[str]:
    if asked.by not in BY:
        return [f"by: {asked.by!r} is none of {', '.join(BY)}"]
    strangers = sorted(set(asked.keeps) - {each.subject for each in found.set.suspects})
    problems = [f"keeps: {each} is not in this set; choose from its joints" for each in strangers]
    offered = {(each.by, each.fact) for each in found.offers}
    needs_offer = asked.by in ("cylinder connected", "cross-check", "as-found curve")
    if needs_offer and (asked.by, asked.fact) not in offered:
        problems.append(f"fact: {asked.fact!r} is no {asked.by} inside the stretch of this set; choose one on offer")
    elif not needs_offer and not reads.entries_named([asked.fact]):
        problems.append(f"fact: {asked.fact!r} is no entry the record knows; a set is never narrowed by a wish")
    if not needs_offer and not asked.keeps and (asked.by, asked.fact) not in offered:
        problems.append(f"keeps: by {asked.by}, say which joints stay in; what is not named is let out")
    return problems


def _wrong_undoing(asked: NarrowingAsked, registers: Registers) -> list[str]:
    signed = [each for each in registers.narrowings.values() if each.check == asked.check]
    if asked.undoes not in {each.id for each in signed}:
        return [f"undoes: {asked.undoes!r} is no narrowing of this set"]
    if any(each.undoes == asked.undoes for each in signed):
        return [f"undoes: {asked.undoes} is undone already"]
    return []


def _own_welds(reads: Reads, asked: NarrowingAsked, found: OneSet) -> list[str]:
    passes = reads.entries_named(each for suspect in found.set.still_in for each in suspect.passes)
    welders = {each.entry.who for each in passes if isinstance(each.entry, Pass) and _is_in(each.entry, found.set)}
    return [
        f"{each.person} welded joints of this set; somebody else narrows it"
        for each in asked.signings
        if each.person in welders
    ]


def _is_in(made: Pass, found: SuspectSet) -> bool:
    subjects = (read_joint_subject(each.subject) for each in found.still_in)
    return any(each and (each.frame, each.joint) == (made.frame, made.joint) for each in subjects)


def _offer_of(asked: NarrowingAsked, found: OneSet) -> Offer | None:
    """The offer that is signed; who names what stays in signs their own list instead."""
    if asked.keeps or asked.undoes:
        return None
    return next((each for each in found.offers if (each.by, each.fact) == (asked.by, asked.fact)), None)


def _paper(asked: NarrowingAsked, offer: Offer | None, position: int, now_ms: int) -> dict[str, Any]:
    told: dict[str, Any] = {
        "kind": "narrowing",
        "id": f"N-{position}",
        "check": asked.check,
        "by": "none" if asked.undoes else asked.by,
        "keeps": list(asked.keeps),
        "reason": asked.reason.strip(),
    }
    optional = {"fact": asked.fact, "undoes": asked.undoes}
    told |= {name: value for name, value in optional.items() if value}
    if offer and offer.lets_out:
        told |= {"lets_out": list(offer.lets_out), "rests_on": list(offer.rests_on)}
    shown = sha256(canonical_line(told)).hexdigest()
    alone = len(asked.signings) > 1 and len({each.person for each in asked.signings}) == 1
    return told | {"signatures": [signature(each, shown, now_ms, one_person=alone) for each in asked.signings]}
