"""What a browser is asked when a passkey is made or used: a challenge of the house, good once and for five minutes."""

import hashlib
import secrets
from threading import Lock
from typing import NamedTuple

from server.facts.people import Person
from server.record.door_facts import Passkey
from server.work.refusal import Refusal

MINUTES = 5
BYTES = 32


class NoPasskey(Refusal):
    """What a browser answered is no proof by a passkey of this shop."""


class House(NamedTuple):
    """The house as a browser knows it: the name it was reached by, the whole origin, and what it is called."""

    host: str
    origin: str
    name: str


class Challenges:
    """The challenges not answered yet, in memory only, each for one person's new passkey or for a sign-in."""

    def __init__(self) -> None:
        self._open: dict[bytes, tuple[str | None, int]] = {}
        self._turn = Lock()

    def give(self, person: str | None, now_ms: int) -> bytes:
        """Give a new challenge, for a person's new passkey or, with nobody named, for a sign-in."""
        challenge = secrets.token_bytes(BYTES)
        with self._turn:
            self._open = {each: of for each, of in self._open.items() if of[1] > now_ms}
            self._open[challenge] = (person, now_ms + MINUTES * 60_000)
        return challenge

    def use(self, challenge: bytes, person: str | None, now_ms: int) -> bytes:
        """Use a challenge up; raises `NoPasskey` for one never given, given for something else, used or too old."""
        with self._turn:
            given_for, until_ms = self._open.pop(challenge, (None, 0))
        if until_ms <= now_ms or given_for != person:
            raise NoPasskey(f"That took longer than {MINUTES} minutes, or was used already. Start again.")
        return challenge


def ask_to_make(house: House, person: Person, known: list[Passkey], challenge: bytes) -> str:
    """Give what a browser is told to make a passkey by, as JSON: kept on the device, opened by finger, face or PIN."""
    # The library takes more than a second to load, and most days nobody asks for it.
    import webauthn
    from webauthn.helpers import structs

    told = webauthn.generate_registration_options(
        rp_id=house.host,
        rp_name=house.name,
        user_name=person.name,
        user_id=hashlib.sha256(f"strawline {person.id}".encode()).digest(),
        challenge=challenge,
        authenticator_selection=structs.AuthenticatorSelectionCriteria(
            resident_key=structs.ResidentKeyRequirement.REQUIRED,
            user_verification=structs.UserVerificationRequirement.REQUIRED,
        ),
        exclude_credentials=[
            structs.PublicKeyCredentialDescriptor(id=webauthn.base64url_to_bytes(each.id)) for each in known
        ],
    )
    return webauthn.options_to_json(told)


def ask_to_come_in(house: House, challenge: bytes) -> str:
    """Give what a browser is told to prove a passkey by, as JSON; whose it is the device itself knows."""
    import webauthn
    from webauthn.helpers.structs import UserVerificationRequirement

    told = webauthn.generate_authentication_options(
        rp_id=house.host, challenge=challenge, user_verification=UserVerificationRequirement.REQUIRED
    )
    return webauthn.options_to_json(told)
