"""Sets a person's PIN, in place of the one before; only its hash is kept."""

from server.record.book_of_lines import Record
from server.record.door_facts import Credential
from server.record.keeping_secrets import keep_credential
from server.record.reads import Reads
from server.record.written import Written
from server.work.proving import good_pin, hash_secret
from server.work.refusal import Refusal


class NobodyOfThatName(Refusal):
    """A PIN was to be set for somebody the registers do not know."""


def set_pin(record: Record, person: str, pin: str, now_ms: int) -> str:
    """Set the PIN and answer the person's name; raises `SecretTooWeak` or `NobodyOfThatName`."""
    # Hashing takes its time on purpose, so it is done before the writer's turn.
    kept = Credential(person, "pin", hash_secret(good_pin(pin)), now_ms)
    return record.write(lambda reads: _set(reads, kept)).result()


def _set(reads: Reads, kept: Credential) -> Written[str]:
    known = reads.registers().people.get(kept.person)
    if known is None or known.left:
        raise NobodyOfThatName(f"person {kept.person!r} works here by no register; enter them as a person first")
    return Written(lambda _: known.name, changes=(keep_credential(kept),))
