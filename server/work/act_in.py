"""Somebody who holds several roles goes on in another one; what they do from then on names it."""

from server.facts.people import Person
from server.record.keeping_sessions import act_in
from server.record.reads import Reads
from server.record.written import Written
from server.work.acting import acting
from server.work.refusal import NotThere, NotYours


def go_on_in(reads: Reads, token_hash: str, role: str, now_ms: int) -> Written[Person]:
    """Change the role of a session; raises `NotYours` for a role its person does not hold now."""
    session, registers = reads.session(token_hash), reads.registers()
    known = registers.people.get(session.person) if session else None
    if known is None:
        raise NotThere("this session has ended; sign in again")
    person = acting(registers, known, now_ms)
    if role not in person.roles:
        raise NotYours(f"{person.name} does not hold the role {role!r}; held are {', '.join(person.roles)}")
    return Written(lambda _: person, changes=(act_in(token_hash, role),))
