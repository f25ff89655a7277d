"""Badges: a code of 125 random bits on a card signs its person in on the shop's own devices; only its hash is kept."""

import hashlib
import logging
import secrets

from server.facts.people import Person
from server.record.book_of_lines import Record
from server.record.door_facts import Credential
from server.record.keeping_secrets import drop_credential, keep_credential
from server.record.keeping_sessions import end_sessions
from server.record.reads import Reads
from server.record.written import Written
from server.work.door_told import Hand, door_line
from server.work.known_device import ELSEWHERE
from server.work.refusal import NotThere
from server.work.set_pin import working_here
from server.work.sign_in import Admitted, Entering, Proven, WrongSecret, entered

_LOG = logging.getLogger("strawline.door")
BEGINS = "BADGE"
# Without I, L, O and U, which are read as something else when a code has to be typed.
_SIGNS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
_MISREAD = str.maketrans("ILO", "110", " -")
_GROUPS, _IN_A_GROUP = 5, 5


def read_badge(text: str) -> str | None:
    """Give a badge's code as it is hashed, whatever spaces, dashes and small letters it came with; none for no badge.

    >>> read_badge("badge 0o1il-22222-33333-44444-55555")
    '0011122222333334444455555'
    """
    told = text.strip().upper()
    code = told.removeprefix(BEGINS).translate(_MISREAD)
    fits = told.startswith(BEGINS) and len(code) == _GROUPS * _IN_A_GROUP and set(code) <= set(_SIGNS)
    return code if fits else None


def print_badge(record: Record, person: str, hand: Hand, now_ms: int) -> tuple[Person, str]:
    """Make a new badge and give its code, which nobody is told again; an older badge and its sessions are at an end."""
    groups = ("".join(secrets.choice(_SIGNS) for _ in range(_IN_A_GROUP)) for _ in range(_GROUPS))
    code = "-".join((BEGINS, *groups))
    kept = Credential(person, "badge", _hash(str(read_badge(code))), now_ms)
    told = door_line("badge printed", hand, now_ms, person=person)

    def verb(reads: Reads) -> Written[Person]:
        known = working_here(reads, person)
        return Written(lambda _: known, lines=(told,), changes=(keep_credential(kept), end_sessions(person=person)))

    return record.write(verb).result(), code


def take_badge(reads: Reads, person: str, hand: Hand, now_ms: int) -> Written[str]:
    """Take somebody's badge away, with every session of theirs; raises `NotThere` where there is none."""
    known = working_here(reads, person)
    if "badge" not in reads.credentials(person):
        raise NotThere(f"{known.name} has no badge, so none of theirs opens anything; nothing was done")
    told = door_line("badge taken away", hand, now_ms, person=person)
    return Written(
        lambda _: known.name, lines=(told,), changes=(drop_credential(person, "badge"), end_sessions(person=person))
    )


def holder(record: Record, text: str, device: str) -> Person:
    """Give whose badge this is; raises `WrongSecret`, and on a device the shop does not know nothing is looked up."""
    if device == ELSEWHERE:
        raise WrongSecret(
            "A badge opens on the shop's enrolled devices only, and this is none. "
            "Sign in with a pass phrase, or let the owner enrol this device."
        )
    code = read_badge(text)
    with record.reads() as reads:
        kept = reads.holder_of("badge", _hash(code)) if code else None
        person = reads.registers().people.get(kept.person) if kept else None
    if person is None or person.left:
        _LOG.warning("turned away a badge on %a", device)
        raise WrongSecret("This badge is not known, or a newer one took its place. Tap your name and key in your PIN.")
    return person


def come_in_by_badge(
    record: Record, text: str, device: str, now_ms: int, hours: int, before: str | None = None
) -> Admitted:
    """Let in whose badge this is; raises `WrongSecret`. Wrong tries at their PIN stay counted."""
    person = holder(record, text, device)
    admitted, opened = entered(Entering(Proven(person), device, before=before), now_ms, hours)
    record.write(lambda _: Written(lambda _: None, changes=opened)).result()
    _LOG.info("signed in %a on %a by badge", person.id, device)
    return admitted


def _hash(code: str) -> str:
    return hashlib.sha256(code.encode()).hexdigest()
