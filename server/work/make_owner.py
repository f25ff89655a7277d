"""Makes the owner's account, on the machine itself: the person, unless the registers know them, and a pass phrase."""

from server.facts.people import Person
from server.facts.registers import Registers
from server.record.book_of_lines import Record
from server.record.door_facts import Credential
from server.record.reads import Reads
from server.record.written import Written
from server.work.door_told import BY_COMMAND, door_line
from server.work.refusal import Refusal
from server.work.set_pin import keep_new, new_credential
from server.work.telling import told_line


class NotAnOwner(Refusal):
    """Who was named is in the registers without the owner's role, or nobody was named where a name is needed."""


def owner_meant(registers: Registers, name: str | None, called: str | None) -> Person:
    """Give the owner meant: the one of that id, the only one there is, or a new one; raises `NotAnOwner`."""
    owners = [each for each in registers.people.values() if "owner" in each.roles and not each.left]
    if name is None and len(owners) == 1:
        return owners[0]
    if name is None and owners:
        raise NotAnOwner(f"id: {len(owners)} people are owners; name one with --id: {', '.join(o.id for o in owners)}")
    known = registers.people.get(name or "")
    if known is None and not called:
        raise NotAnOwner("name: missing; a new owner needs one, so give it with --name")
    if known is None:
        return Person(id=name or "OWNER", name=str(called), roles=("owner",))
    if known not in owners:
        raise NotAnOwner(
            f"id: {known.id!r} is {', '.join(known.roles)} here; enter them as owner in the registers first"
        )
    return known


def make_owner(record: Record, person: Person, phrase: str, now_ms: int) -> None:
    """Set the owner's pass phrase, telling the record the person where it does not know them; ends their sessions."""
    kept = new_credential(record, person, "password", phrase, now_ms)
    record.write(lambda reads: _make(reads, person, kept)).result()


def _make(reads: Reads, person: Person, kept: Credential) -> Written[None]:
    told = {"kind": "person", "id": person.id, "name": person.name, "roles": list(person.roles)}
    known = person.id in reads.registers().people
    lines = [] if known else [told_line(told, kept.made_ms)]
    lines.append(door_line("pass phrase set", BY_COMMAND, kept.made_ms, person=person.id))
    return Written(lambda _: None, lines=lines, changes=keep_new(reads, kept))
