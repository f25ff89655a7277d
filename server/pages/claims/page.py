"""What the claim screens show: the list with its form, and one claim with its steps and the place on the picture."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from server.facts.claim import Claim, ClaimStep
from server.facts.orders import Customer
from server.facts.people import Person
from server.plan.picture_parts import Picture
from server.work.claims import STEPS, ClaimFile
from server.work.evidence_files import EvidenceFile


@dataclass(frozen=True, slots=True)
class ClaimsPage:
    """The claims, newest first, and what was typed into the form if it was not taken."""

    claims: tuple[Claim, ...]
    customers: Mapping[str, Customer]
    typed: Mapping[str, str]
    problems: tuple[str, ...]

    def who(self, claim: Claim) -> str:
        """Give who reported it, by name where the register has it."""
        return said_by(claim, self.customers)


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

    @property
    def steps(self) -> tuple[str, ...]:
        """The kinds of steps that can be added."""
        return STEPS

    def came_with(self, step: ClaimStep) -> list[EvidenceFile]:
        """Give what came with a step."""
        return [self.files[each] for each in step.files]


def said_by(claim: Claim, customers: Mapping[str, Customer]) -> str:
    """Give the name behind a customer's id, or the words that were written."""
    customer = customers.get(claim.reported_by)
    return customer.name if customer else claim.reported_by
