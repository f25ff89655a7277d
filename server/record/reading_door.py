"""Questions at the door: a person's secrets, a session by its token's hash, an enrolled device, failed tries."""

from collections.abc import Collection

from sqlalchemy import select

from server.record.asking import Asking
from server.record.door_facts import Credential, Device, FailedTry, Passkey, Session
from server.record.tables.columns import (
    CREDENTIAL,
    CREDENTIAL_TABLE,
    DEVICE,
    DEVICE_TABLE,
    FAILED_TRY,
    FAILED_TRY_TABLE,
    PASSKEY,
    PASSKEY_TABLE,
    SESSION,
    SESSION_TABLE,
)


class DoorReads(Asking):
    """What sign-in asks."""

    def credentials(self, person: str) -> dict[str, Credential]:
        """Give a person's secrets by their kind."""
        found = self._connection.execute(select(CREDENTIAL_TABLE).where(CREDENTIAL.person == person))
        return {each.kind: each for each in (Credential(*row) for row in found)}

    def people_with_credentials(self, kind: str | None = None) -> frozenset[str]:
        """Give everybody who has a secret, or one of this kind, and so can sign in."""
        asked = select(CREDENTIAL.person).distinct()
        asked = asked if kind is None else asked.where(CREDENTIAL.kind == kind)
        return frozenset(self._connection.execute(asked).scalars())

    def holder_of(self, kind: str, secret_hash: str) -> Credential | None:
        """Give the secret that has exactly this hash: only secrets made by the house are kept so that one can ask."""
        asked = select(CREDENTIAL_TABLE).where(CREDENTIAL.kind == kind, CREDENTIAL.secret_hash == secret_hash)
        found = self._connection.execute(asked).first()
        return Credential(*found) if found else None

    def passkeys(self, person: str | None = None) -> list[Passkey]:
        """Give a person's passkeys, or everybody's."""
        asked = select(PASSKEY_TABLE).order_by(PASSKEY.made_ms)
        asked = asked if person is None else asked.where(PASSKEY.person == person)
        return [Passkey(*row) for row in self._connection.execute(asked)]

    def session(self, token_hash: str) -> Session | None:
        """Give the session of a token; whether it has ended is for the asker to say."""
        found = self._connection.execute(select(SESSION_TABLE).where(SESSION.token_hash == token_hash)).first()
        return Session(*found) if found else None

    def devices(self) -> list[Device]:
        """Give every device that was ever enrolled."""
        return [Device(*row) for row in self._connection.execute(select(DEVICE_TABLE).order_by(DEVICE.id))]

    def sessions(self, now_ms: int) -> list[Session]:
        """Give the sessions whose time is not up."""
        found = self._connection.execute(select(SESSION_TABLE).where(SESSION.ends_ms > now_ms))
        return [Session(*row) for row in found]

    def all_failed_tries(self) -> list[FailedTry]:
        """Give everybody's failed tries."""
        return [FailedTry(*row) for row in self._connection.execute(select(FAILED_TRY_TABLE))]

    def device_by_key(self, key_hash: str) -> Device | None:
        """Give the device a key belongs to, revoked or not."""
        found = self._connection.execute(select(DEVICE_TABLE).where(DEVICE.key_hash == key_hash)).first()
        return Device(*found) if found else None

    def failed_tries(self, person: str, devices: Collection[str] | None = None) -> list[FailedTry]:
        """Give a person's failed tries, on all devices or on some."""
        asked = select(FAILED_TRY_TABLE).where(FAILED_TRY.person == person)
        if devices is not None:
            asked = asked.where(FAILED_TRY.device.in_(devices))
        return [FailedTry(*row) for row in self._connection.execute(asked)]
