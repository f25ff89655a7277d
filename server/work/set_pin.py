"""Sets a person's PIN or pass phrase; only its hash is kept, wrong tries are forgotten, and the record is told."""

from server.facts.door import DoorAct
from server.facts.people import Person
from server.record.book_of_lines import Record
from server.record.door_facts import Credential
from server.record.keeping_secrets import forget_failed_tries, keep_credential
from server.record.keeping_sessions import end_sessions
from server.record.reads import Reads
from server.record.written import Change, Written
from server.work.door_told import BY_COMMAND, Hand, door_line
from server.work.proving import good_phrase, good_pin, hash_secret
from server.work.refusal import Refusal

ACTS: dict[str, DoorAct] = {"pin": "PIN set", "password": "pass phrase set"}


class NobodyOfThatName(Refusal):
    """A PIN was to be set for somebody the registers do not know."""


def set_pin(record: Record, person: str, pin: str, now_ms: int, hand: Hand = BY_COMMAND) -> str:
    """Set the PIN and answer the person's name; raises `SecretTooWeak` or `NobodyOfThatName`."""
    return _set_anew(record, person, "pin", pin, now_ms, hand)


def set_phrase(record: Record, person: str, phrase: str, now_ms: int, hand: Hand = BY_COMMAND) -> str:
    """Set the pass phrase and answer the person's name; raises `SecretTooWeak` or `NobodyOfThatName`."""
    return _set_anew(record, person, "password", phrase, now_ms, hand)


def new_credential(record: Record, person: Person, kind: str, secret: str, now_ms: int) -> Credential:
    """Make what is kept of a new secret; raises `SecretTooWeak`. Hashing takes time, so it is no writer's turn."""
    good = good_pin(secret, person.id) if kind == "pin" else good_phrase(secret, (person.id, *person.name.split()))
    return Credential(person.id, kind, hash_secret(good, record.pepper), now_ms)


def working_here(reads: Reads, person: str) -> Person:
    """Give the person of that id who works here; raises `NobodyOfThatName`."""
    known = reads.registers().people.get(person)
    if known is None or known.left:
        raise NobodyOfThatName(f"person {person!r} works here by no register; enter them as a person first")
    return known


def keep_new(reads: Reads, kept: Credential) -> tuple[Change, ...]:
    """Give the changes that set it: whoever knew the old secret is signed out with it."""
    forgotten = [forget_failed_tries(each.person, each.device) for each in reads.failed_tries(kept.person)]
    return (keep_credential(kept), *forgotten, end_sessions(person=kept.person))


def _set_anew(record: Record, person: str, kind: str, secret: str, now_ms: int, hand: Hand) -> str:
    with record.reads() as reads:
        known = working_here(reads, person)
    # Somebody else who chose it knows it, so it has to be changed; a command's are the shop's own affair.
    given = hand.by not in (None, person)
    kept = new_credential(record, known, kind, secret, now_ms)._replace(given=given)
    told = door_line(ACTS[kind], hand, now_ms, person=person)

    def verb(reads: Reads) -> Written[str]:
        return Written(lambda _: known.name, lines=(told,), changes=keep_new(reads, kept))

    return record.write(verb).result()
