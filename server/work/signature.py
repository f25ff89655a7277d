"""A signature: the person proves themselves again, says what they declare, and the digest of what they saw is kept."""

from dataclasses import dataclass
from typing import Any

from server.facts.moment import show_moment
from server.facts.people import Person
from server.record.book_of_lines import Record
from server.work.refusal import NotYours
from server.work.sign_in import Asked, check_secret, forget_tries, take_try


@dataclass(frozen=True, slots=True)
class Signing:
    """Somebody about to sign: who, with which secret, on which device, in which role, declaring what."""

    person: str
    secret: str
    device: str
    role: str
    meaning: str


def prove_again(record: Record, signing: Signing, now_ms: int) -> Person:
    """Check the signer's secret anew, as every signature asks; raises `WrongSecret` or `NotYours`."""
    asked = Asked(signing.person, signing.secret, signing.device, signing.role)
    record.write(lambda reads: take_try(reads, asked, now_ms)).result()
    with record.reads() as reads:
        person = check_secret(reads, asked)
    record.write(lambda reads: forget_tries(reads, asked)).result()
    if signing.role not in person.roles:
        raise NotYours(f"{person.name} does not hold the role {signing.role!r}; held are {', '.join(person.roles)}.")
    return person


def signature(signing: Signing, shown_sha256: str, now_ms: int, *, one_person: bool = False) -> dict[str, Any]:
    """Give the signature as the sealed paper carries it."""
    return {
        "person": signing.person,
        "role": signing.role,
        "at": show_moment(now_ms),
        "meaning": signing.meaning,
        "shown_sha256": shown_sha256,
        "both_roles_one_person": one_person,
    }
