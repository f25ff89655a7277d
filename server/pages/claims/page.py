"""What the claim screens show: the list with its form, and one claim with its steps and the place on the picture."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple

from server.facts.claim import Claim, ClaimStep
from server.facts.containment import Containment
from server.facts.legal_hold import LegalHold
from server.facts.orders import Customer, Packet
from server.facts.people import Person
from server.pages.frame.paged import Part
from server.plan.picture_parts import Picture
from server.work.claims import BOTH_ROLES, SETTLED, STEPS, ClaimFile
from server.work.evidence_files import EvidenceFile


@dataclass(frozen=True, slots=True)
class ClaimsPage:
    """A part of the claims, newest first, and what was typed into the form if it was not taken."""

    claims: Part[Claim]
    customers: Mapping[str, Customer]
    typed: Mapping[str, str]
    problems: tuple[str, ...]

    def who(self, claim: Claim) -> str:
        """Give who reported it, by name where the register has it."""
        return said_by(claim, self.customers)


_HOUR_MS, _DAY_MS = 3_600_000, 86_400_000
_QUARTERS = {"q12": "12 o'clock", "q3": "3 o'clock", "q6": "6 o'clock", "q9": "9 o'clock"}
_TICKS = frozenset({"letter", "told", "returned", "laboratory result", "decision", "containment"})


class Tick(NamedTuple):
    """One moment on the claim's own clock, and how long after the shop knew."""

    at_ms: int
    words: str
    after: str
    knew: bool = False


@dataclass(frozen=True, slots=True)
class ClaimPage:
    """One claim with everything in its file."""

    file: ClaimFile
    who: str
    picture: Picture | None
    state_of: Mapping[str, Any]
    signers: tuple[Person, ...]
    problems: tuple[str, ...]
    typed: Mapping[str, str]
    files: Mapping[str, EvidenceFile]
    customers: Mapping[str, Customer]
    containments: tuple[Containment, ...]
    hold: LegalHold | None
    packet: Packet

    @property
    def before_the_frame(self) -> bool:
        """Tell whether the shop is said to have known before the frame was begun; an older frame's packet came late."""
        return not self.packet.before_the_record and self.file.claim.knew < self.packet.issued

    @property
    def quarter(self) -> str:
        """The quarter that was reported, in words."""
        return _QUARTERS.get(self.file.claim.quarter or "", "")

    @property
    def clock(self) -> list[Tick]:
        """What was reported, when the shop knew, and what followed, each with how long after that was."""
        claim = self.file.claim
        ticks = [Tick(claim.reported, f"reported by {self.who}", _after(claim.reported, claim.knew))]
        ticks.append(Tick(claim.knew, "the shop knew", "", knew=True))
        steps = [each for each in self.file.steps if each.step in _TICKS]
        ticks += [Tick(each.at, self._tick_words(each), _after(each.at, claim.knew)) for each in steps]
        return sorted(ticks, key=lambda each: each.at_ms)

    def _tick_words(self, step: ClaimStep) -> str:
        parts = (step.step, step.settled or "", self.named(step.to), step.serial or "")
        return ", ".join(part for part in parts if part)

    def named(self, to: str | None) -> str:
        """Give the name behind a customer's id, or the words that were written."""
        customer = self.customers.get(to or "")
        return customer.name if customer else to or ""

    @property
    def others_told(self) -> list[ClaimStep]:
        """The steps about frames of others: who was told, and what they answered."""
        about = self.file.of("containment", "letter", "told", "answer")
        return [each for each in about if each.serial and each.serial != self.file.claim.serial]

    @property
    def steps(self) -> tuple[str, ...]:
        """The kinds of steps that can be added."""
        return STEPS

    @property
    def decisions(self) -> tuple[tuple[str, bool], ...]:
        """What a decision may decide, and whether both roles sign it."""
        return tuple((each, each in BOTH_ROLES) for each in SETTLED)

    def came_with(self, step: ClaimStep) -> list[EvidenceFile]:
        """Give what came with a step."""
        return [self.files[each] for each in step.files]


def said_by(claim: Claim, customers: Mapping[str, Customer]) -> str:
    """Give the name behind a customer's id, or the words that were written."""
    customer = customers.get(claim.reported_by)
    return customer.name if customer else claim.reported_by


def _after(at_ms: int, knew_ms: int) -> str:
    if at_ms == knew_ms:
        return "in the same minute"
    apart, when = abs(at_ms - knew_ms), "after" if at_ms > knew_ms else "before"
    return f"{apart // _DAY_MS} days {when}" if apart >= 2 * _DAY_MS else f"{apart / _HOUR_MS:.1f} hours {when}"
