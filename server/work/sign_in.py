"""A person signs in with a PIN or a pass phrase; wrong tries wait longer and longer, and ten in a row end the PIN."""

import hashlib
import logging
import secrets
from dataclasses import dataclass
from typing import NamedTuple, Protocol

from server.facts.people import Person
from server.facts.registers import Registers
from server.record.book_of_lines import Record
from server.record.door_facts import Credential, FailedTry, Session
from server.record.keeping_secrets import forget_failed_tries, keep_credential, keep_failed_try
from server.record.keeping_sessions import end_session, end_sessions, open_session
from server.record.written import Change, Written
from server.work.acting import acting
from server.work.known_device import ELSEWHERE
from server.work.proving import PIN_DIGITS, hash_secret, other_pepper, outdated, proves
from server.work.refusal import NotYours, Refusal

_LOG = logging.getLogger("strawline.door")
WAITS_S = {5: 30, 6: 120, 7: 600, 8: 600, 9: 600}
TRIES_TO_OFF = 10
_FOR_EVER_MS = 2**53
_NOBODY = Credential("", "pin", hash_secret(secrets.token_urlsafe(16)), 0)


class WrongSecret(Refusal):
    """The PIN or pass phrase does not fit, or the next try has to wait."""


class DoorQuestions(Protocol):
    """What sign-in asks the record."""

    def registers(self, known_at: int | None = None) -> Registers:
        """Give the registers."""

    def credentials(self, person: str) -> dict[str, Credential]:
        """Give a person's secrets by kind."""

    def failed_tries(self, person: str, devices: list[str] | None = None) -> list[FailedTry]:
        """Give the failed tries of a person."""


@dataclass(frozen=True, slots=True)
class Asked:
    """Somebody at the door: who, with which secret, on which device, in which role (the first they hold if none)."""

    person: str
    secret: str
    device: str
    role: str | None = None


class Proven(NamedTuple):
    """Somebody who proved themselves, and whether only by a secret that somebody else chose for them.

    `renewed` are secrets that would be kept otherwise today: the hash so far, and the secret kept anew.
    """

    person: Person
    given: bool = False
    renewed: tuple[tuple[str, Credential], ...] = ()


@dataclass(frozen=True, slots=True)
class Entering:
    """Somebody let in on a device, in a role; `before` is the token this browser had, which ends."""

    proven: Proven
    device: str
    role: str | None = None
    before: str | None = None


@dataclass(frozen=True, slots=True)
class Admitted:
    """The token for the browser, known to nobody else, and the session it opens."""

    token: str
    session: Session


def token_hash(token: str) -> str:
    """Hash a session token for keeping."""
    return hashlib.sha256(token.encode()).hexdigest()


def is_off(tries: FailedTry) -> bool:
    """Tell whether these tries have turned the secret off until the owner sets a new one."""
    return tries.wait_until_ms >= _FOR_EVER_MS


def may_try(tries: list[FailedTry], now_ms: int) -> None:
    """Raise `WrongSecret` while the next try has to wait, with how long."""
    until_ms = max((each.wait_until_ms for each in tries), default=0)
    if until_ms >= _FOR_EVER_MS:
        raise WrongSecret("This PIN was given wrong ten times and is off. The owner sets a new one.")
    if until_ms > now_ms:
        raise WrongSecret(f"Too many wrong tries. Wait {-(-(until_ms - now_ms) // 1000)} seconds, then try again.")


def next_failed(tries: list[FailedTry], asked: Asked, now_ms: int) -> FailedTry:
    """Count one more wrong try and say how long the next one waits."""
    count = 1 + sum(each.tries for each in tries)
    own = next((each.tries for each in tries if each.device == asked.device), 0)
    wait_until_ms = _FOR_EVER_MS if count >= TRIES_TO_OFF else now_ms + 1000 * WAITS_S.get(count, 0)
    return FailedTry(asked.person, asked.device, own + 1, now_ms, wait_until_ms)


def no_pin_elsewhere(asked: Asked) -> None:
    """Raise `WrongSecret` for a PIN on a device the shop does not know; whose it would be is not looked up."""
    if asked.device == ELSEWHERE and len(asked.secret) <= PIN_DIGITS:
        raise WrongSecret(
            "A PIN is taken on the shop's enrolled devices only, and this is none. "
            "Sign in with a pass phrase, or let the owner enrol this device."
        )


def tries_alike(reads: DoorQuestions, asked: Asked) -> list[FailedTry]:
    """Give the wrong tries that count here: strangers' devices and the shop's own never lock each other out."""
    elsewhere = asked.device == ELSEWHERE
    return [each for each in reads.failed_tries(asked.person) if (each.device == ELSEWHERE) is elsewhere]


def take_try(reads: DoorQuestions, asked: Asked, now_ms: int) -> Written[None]:
    """Count a try before it is checked, so that no number of guesses at once gets past the waits."""
    no_pin_elsewhere(asked)
    tries = tries_alike(reads, asked)
    may_try(tries, now_ms)
    return Written(answer=lambda _: None, changes=(keep_failed_try(next_failed(tries, asked, now_ms)),))


def check_secret(reads: DoorQuestions, asked: Asked, pepper: bytes, now_ms: int, what: str = "Name and PIN") -> Proven:
    """Give the person whose secret fits; raises `WrongSecret` with the same words for unknown people and wrong PINs."""
    registers = reads.registers()
    person = registers.people.get(asked.person)
    kinds = ("password",) if asked.device == ELSEWHERE else ("pin", "password")
    kept = [each for kind, each in reads.credentials(asked.person).items() if kind in kinds]
    if any(other_pepper(each.secret_hash, pepper) for each in kept):
        _LOG.error("secrets of %a were kept with another record.pepper: put it back, or set them anew", asked.person)
    # Somebody unknown takes as long as somebody known, so that time does not tell who works here.
    fits = [each for each in kept or [_NOBODY] if proves(asked.secret, each.secret_hash, pepper)]
    if person is None or person.left or not fits:
        raise WrongSecret(f"{what} do not fit together. Try again; after five wrong tries the next one waits.")
    old = [each for each in fits if outdated(each.secret_hash, pepper)]
    renewed = [(each.secret_hash, each._replace(secret_hash=hash_secret(asked.secret, pepper))) for each in old]
    return Proven(acting(registers, person, now_ms), all(each.given for each in fits), tuple(renewed))


def forget_tries(reads: DoorQuestions, asked: Asked, proven: Proven) -> Written[None]:
    """Forget the wrong tries of somebody who has just proved themselves, and keep their secret as it is kept today."""
    forgotten = [forget_failed_tries(each.person, each.device) for each in tries_alike(reads, asked)]
    # A secret that was changed since it was looked at stays changed.
    now = {each.secret_hash for each in reads.credentials(asked.person).values()}
    renewed = [keep_credential(after) for before, after in proven.renewed if before in now]
    return Written(answer=lambda _: None, changes=[*forgotten, *renewed])


def entered(entering: Entering, now_ms: int, hours: int) -> tuple[Admitted, tuple[Change, ...]]:
    """Make the session of somebody let in, with the changes that open it and end the one this browser had."""
    person = entering.proven.person
    role = entering.role or person.roles[0]
    if role not in person.roles:
        raise NotYours(f"{person.name} does not hold the role {role!r}; held are {', '.join(person.roles)}")
    token, ends_ms = secrets.token_urlsafe(32), now_ms + hours * 3_600_000
    opened = Session(
        token_hash(token), person.id, role, entering.device, now_ms, now_ms, ends_ms, entering.proven.given
    )
    ended = (end_sessions(before_ms=now_ms), *([end_session(token_hash(entering.before))] if entering.before else []))
    return Admitted(token, opened), (*ended, open_session(opened))


def sign_in(record: Record, asked: Asked, now_ms: int, hours: int, before: str | None = None) -> Admitted:
    """Let somebody in: count the try, check the secret, open the session; raises `WrongSecret` or `NotYours`."""
    try:
        record.write(lambda reads: take_try(reads, asked, now_ms)).result()
        with record.reads() as reads:
            proven = check_secret(reads, asked, record.pepper, now_ms)
    except WrongSecret:
        # What was typed is written as text that cannot end the line.
        _LOG.warning("turned away %a on %a", asked.person, asked.device)
        raise
    _LOG.info("signed in %a on %a", proven.person.id, asked.device)
    admitted, opened = entered(Entering(proven, asked.device, asked.role, before), now_ms, hours)
    record.write(
        lambda reads: Written(lambda _: None, changes=(*forget_tries(reads, asked, proven).changes, *opened))
    ).result()
    return admitted
