"""Enrols a tablet: the owner invites it by name, and whoever holds the invitation in time gets its key, once."""

import re
import secrets
from threading import Lock
from typing import NamedTuple

from server.record.book_of_lines import Record
from server.record.door_facts import Device
from server.record.keeping_devices import enrol_device
from server.record.lines import HOUSE
from server.record.reads import Reads
from server.record.written import Written
from server.work.device_proof import good_public_key
from server.work.door_told import BY_COMMAND, Hand, door_line
from server.work.known_device import ELSEWHERE, key_hash
from server.work.refusal import Refusal

MINUTES = 10
_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,39}")
_TAKEN = (ELSEWHERE, HOUSE)


class NotInvited(Refusal):
    """The invitation was never given, was used already, or its time is up."""


class NotThatName(Refusal):
    """A tablet cannot have this name."""


class Invited(NamedTuple):
    """The tablet an invitation is for, until when, and by whose hand."""

    device: str
    title: str
    bench: str | None
    until_ms: int
    hand: Hand


class Invitations:
    """The invitations not used yet, in memory only: when the service ends they are void."""

    def __init__(self) -> None:
        self._open: dict[str, Invited] = {}
        self._turn = Lock()

    def give(self, device: str, title: str, bench: str | None, now_ms: int, hand: Hand = BY_COMMAND) -> str:
        """Give a new invitation; an older one for the same tablet is void."""
        token = secrets.token_urlsafe(32)
        invited = Invited(device, title, bench, now_ms + MINUTES * 60_000, hand)
        with self._turn:
            self._open = {t: each for t, each in self._open.items() if each.device != device and each.until_ms > now_ms}
            self._open[key_hash(token)] = invited
        return token

    def look(self, token: str, now_ms: int) -> Invited:
        """Say whom an invitation is for, without using it; raises `NotInvited`."""
        with self._turn:
            return _in_time(self._open.get(key_hash(token)), now_ms)

    def use(self, token: str, now_ms: int) -> Invited:
        """Use an invitation up; raises `NotInvited`."""
        with self._turn:
            return _in_time(self._open.pop(key_hash(token), None), now_ms)


def _in_time(invited: Invited | None, now_ms: int) -> Invited:
    if invited is None or invited.until_ms <= now_ms:
        raise NotInvited(
            f"This invitation was used already, or is older than {MINUTES} minutes. The owner makes a new one."
        )
    return invited


def may_be_named(reads: Reads, device: str) -> None:
    """Raise `NotThatName` for a name no tablet can have, or one that is in use."""
    if not _NAME.fullmatch(device) or device in _TAKEN:
        raise NotThatName(
            f"Name of the tablet: {device!r}; expected up to 40 letters, digits, '.', '_' or '-', as TAB-1"
        )
    if any(each.id == device and each.revoked_ms is None for each in reads.devices()):
        raise NotThatName(f"Name of the tablet: {device!r} is enrolled; revoke it first, or take another name")


def enrol(record: Record, invitations: Invitations, token: str, public_key: str, now_ms: int) -> str:
    """Use the invitation, keep the public half of the tablet's own key, and give the token it is found by.

    Raises `NotAKey`, which leaves the invitation good, `NotInvited` or `NotThatName`.
    """
    good_public_key(public_key)
    invited = invitations.use(token, now_ms)
    key = secrets.token_urlsafe(32)
    device = Device(invited.device, invited.title, invited.bench, key_hash(key), now_ms, public_key=public_key)
    called = invited.title if invited.title != invited.device else None
    told = door_line("tablet enrolled", invited.hand, now_ms, tablet=invited.device, words=called)

    def verb(reads: Reads) -> Written[str]:
        may_be_named(reads, invited.device)
        return Written(lambda _: key, lines=(told,), changes=(enrol_device(device),))

    return record.write(verb).result()
