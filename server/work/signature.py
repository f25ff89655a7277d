"""A signature: the person proves themselves again, says what they declare, and the digest of what they saw is kept."""

from dataclasses import dataclass
from typing import Any

from server.facts.moment import show_moment
from server.facts.people import Person
from server.record.book_of_lines import Record
from server.work.refusal import NotYours, Refusal
from server.work.sign_in import Asked, Proven, check_secret, forget_tries, take_try


class NotTheirOwnYet(Refusal):
    """The secret was chosen by somebody else, who knows it; it signs nothing until it is changed."""


@dataclass(frozen=True, slots=True)
class Signing:
    """Somebody about to sign: who, with which secret, on which device, in which role, declaring what."""

    person: str
    secret: str
    device: str
    role: str
    meaning: str


def prove_again(record: Record, signing: Signing, now_ms: int) -> Person:
    """Check the signer's secret anew, as every signature asks; raises `WrongSecret`, `NotTheirOwnYet` or `NotYours`."""
    asked = Asked(signing.person, signing.secret, signing.device, signing.role)
    person = their_own(proved(record, asked, now_ms, "Your name and your own PIN or pass phrase"))
    if signing.role not in person.roles:
        raise NotYours(f"{person.name} does not hold the role {signing.role!r}; held are {', '.join(person.roles)}.")
    return person


def proved(record: Record, asked: Asked, now_ms: int, what: str = "Name and PIN") -> Proven:
    """Count the try, check the secret, forget the wrong tries; raises `WrongSecret`, which says what does not fit."""
    record.write(lambda reads: take_try(reads, asked, now_ms)).result()
    with record.reads() as reads:
        proven = check_secret(reads, asked, record.pepper, now_ms, what)
    record.write(lambda reads: forget_tries(reads, asked, proven)).result()
    return proven


def their_own(proven: Proven) -> Person:
    """Give the person whose secret is known to nobody else; raises `NotTheirOwnYet` for one that was given to them."""
    if proven.given:
        raise NotTheirOwnYet(
            f"The PIN or pass phrase of {proven.person.name} was chosen by the owner, so it signs nothing yet. "
            "Sign in with it, choose your own, then sign."
        )
    return proven.person


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
