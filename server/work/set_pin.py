"""Sets a person's PIN or pass phrase ; only its hash is kept, and wrong tries are forgotten."""

from server.record.book_of_lines import Record
from server.record.door_facts import Credential
from server.record.keeping_secrets import forget_failed_tries, keep_credential
from server.record.keeping_sessions import end_sessions
from server.record.reads import Reads
from server.record.written import Written
from server.work.proving import good_phrase, good_pin, hash_secret
from server.work.refusal import Refusal


class NobodyOfThatName(Refusal):
    """A PIN was to be set for somebody the registers do not know."""


def set_pin(record: Record, person: str, pin: str, now_ms: int) -> str:
    """Set the PIN and answer the person's name; raises `SecretTooWeak` or `NobodyOfThatName`."""
    # Hashing takes its time on purpose, so it is done before the writer's turn.
    kept = Credential(person, "pin", hash_secret(good_pin(pin)), now_ms)
    return record.write(lambda reads: _set(reads, kept)).result()


def set_phrase(record: Record, person: str, phrase: str, now_ms: int) -> str:
    """Set the pass phrase and answer the person's name; raises `SecretTooWeak` or `NobodyOfThatName`."""
    kept = Credential(person, "password", hash_secret(good_phrase(phrase)), now_ms)
    return record.write(lambda reads: _set(reads, kept)).result()


def _set(reads: Reads, kept: Credential) -> Written[str]:
    known = reads.registers().people.get(kept.person)
    if known is None or known.left:
        raise NobodyOfThatName(f"person {kept.person!r} works here by no register; enter them as a person first")
    # Whoever knew the old secret is signed out with it.
    forgotten = [forget_failed_tries(each.person, each.device) for each in reads.failed_tries(kept.person)]
    changes = (keep_credential(kept), *forgotten, end_sessions(person=kept.person))
    return Written(lambda _: known.name, changes=changes)
