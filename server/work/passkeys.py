"""Passkeys of lead and owner: added and taken away by their person, and a way in from any device."""

import json
import logging
from dataclasses import dataclass
from typing import Any

from server.facts.people import Person
from server.record.book_of_lines import Record
from server.record.door_facts import Passkey
from server.record.keeping_passkeys import add_passkey, drop_passkey, used_passkey
from server.record.reads import Reads
from server.record.written import Written
from server.work.door_told import Hand, door_line
from server.work.passkey_asking import Challenges, House, NoPasskey
from server.work.refusal import NotThere
from server.work.sign_in import Admitted, Entering, Proven, entered

_LOG = logging.getLogger("strawline.door")
HOLDERS = ("quality lead", "owner")


@dataclass(frozen=True, slots=True)
class Answered:
    """What a browser answered, to which house it was said, and when [ms, UTC]."""

    credential: dict[str, Any]
    house: House
    now_ms: int

    def challenge(self) -> bytes:
        """Give the challenge the answer is about; raises `NoPasskey`."""
        from webauthn import base64url_to_bytes

        try:
            told = json.loads(base64url_to_bytes(self.credential["response"]["clientDataJSON"]))
            return base64url_to_bytes(told["challenge"])
        except (ValueError, KeyError, TypeError, AttributeError) as slip:
            raise NoPasskey("What the browser answered cannot be read as a passkey's proof. Start again.") from slip


def add(record: Record, challenges: Challenges, answered: Answered, hand: Hand, title: str) -> None:
    """Keep the public half of a passkey just made for who is signed in; raises `NoPasskey`."""
    import webauthn
    from webauthn.helpers import bytes_to_base64url
    from webauthn.helpers.exceptions import WebAuthnException

    person = str(hand.by)
    challenge = challenges.use(answered.challenge(), person, answered.now_ms)
    try:
        made = webauthn.verify_registration_response(
            credential=answered.credential,
            expected_challenge=challenge,
            expected_rp_id=answered.house.host,
            expected_origin=answered.house.origin,
            require_user_verification=True,
        )
    except (WebAuthnException, ValueError) as slip:
        raise NoPasskey(f"That is no passkey for this house ({slip}). Start again from this page.") from slip
    name = bytes_to_base64url(made.credential_id)
    kept = Passkey(name, person, title, made.credential_public_key, made.sign_count, answered.now_ms)
    told = door_line("passkey added", hand, answered.now_ms, person=person, words=title)
    record.write(lambda _: Written(lambda _: None, lines=(told,), changes=(add_passkey(kept),))).result()


def take_away(reads: Reads, name: str, hand: Hand, now_ms: int) -> Written[str]:
    """Take one's own passkey away and answer what it was called; raises `NotThere`."""
    person = str(hand.by)
    found = next((each for each in reads.passkeys(person) if each.id == name), None)
    if found is None:
        raise NotThere("that passkey is not yours or is gone already; the list shows those you have")
    told = door_line("passkey taken away", hand, now_ms, person=person, words=found.title)
    return Written(lambda _: found.title, lines=(told,), changes=(drop_passkey(person, name),))


def come_in_by_passkey(
    record: Record, challenges: Challenges, answered: Answered, device: str, hours: int, before: str | None = None
) -> Admitted:
    """Let in whose passkey answered; raises `NoPasskey`. Wrong tries at their PIN stay counted."""
    challenge = challenges.use(answered.challenge(), None, answered.now_ms)
    with record.reads() as reads:
        passkey = next((each for each in reads.passkeys() if each.id == answered.credential.get("id")), None)
        person = reads.registers().people.get(passkey.person) if passkey else None
    if passkey is None or person is None or not _may(person):
        _LOG.warning("turned away a passkey on %a", device)
        raise NoPasskey("This passkey is not known here, or was taken away. Sign in with your pass phrase.")
    count = _proved(answered, challenge, passkey)
    admitted, opened = entered(Entering(Proven(person), device, before=before), answered.now_ms, hours)
    changes = (used_passkey(passkey.id, count, answered.now_ms), *opened)
    record.write(lambda _: Written(lambda _: None, changes=changes)).result()
    _LOG.info("signed in %a on %a by passkey", person.id, device)
    return admitted


def _may(person: Person) -> bool:
    return not person.left and any(role in HOLDERS for role in person.roles)


def _proved(answered: Answered, challenge: bytes, passkey: Passkey) -> int:
    import webauthn
    from webauthn.helpers.exceptions import WebAuthnException

    try:
        return webauthn.verify_authentication_response(
            credential=answered.credential,
            expected_challenge=challenge,
            expected_rp_id=answered.house.host,
            expected_origin=answered.house.origin,
            credential_public_key=passkey.public_key,
            credential_current_sign_count=passkey.sign_count,
            require_user_verification=True,
        ).new_sign_count
    except (WebAuthnException, ValueError) as slip:
        _LOG.warning("turned away a passkey of %a", passkey.person)
        raise NoPasskey("The passkey's proof does not hold. Start again, or sign in with your pass phrase.") from slip
