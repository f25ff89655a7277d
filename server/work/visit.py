"""Whose visit a request is: the session behind its token, unless it idled too long or its time is up."""

from typing import NamedTuple, Protocol

from server.facts.people import Person
from server.facts.registers import Registers
from server.record.door_facts import Session
from server.work.acting import acting
from server.work.sign_in import token_hash


class SessionQuestions(Protocol):
    """What a visit asks the record."""

    def registers(self, known_at: int | None = None) -> Registers:
        """Give the registers."""

    def session(self, token_hash: str) -> Session | None:
        """Give the session of a token."""


class Visit(NamedTuple):
    """A person with the session they are here by."""

    person: Person
    session: Session


def visit_of(reads: SessionQuestions, token: str, now_ms: int, idle_minutes: int) -> Visit | None:
    """Give the visit of a token, or none when it never was, has idled or has ended."""
    session = reads.session(token_hash(token))
    if session is None or session.ends_ms <= now_ms or session.seen_ms + idle_minutes * 60_000 <= now_ms:
        return None
    registers = reads.registers()
    known = registers.people.get(session.person)
    person = acting(registers, known, now_ms) if known else None
    if person is None or person.left or session.role not in person.roles:
        return None
    return Visit(person, session)
