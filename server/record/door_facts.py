"""What the door keeps, as it is read back: a secret's hash, a session, a device, a passkey, a row of failed tries."""

from typing import NamedTuple


class Credential(NamedTuple):
    """A person's secret of one kind (`pin`, `password`, `badge`), as its hash only; `given` by somebody else or not."""

    person: str
    kind: str
    secret_hash: str
    made_ms: int
    given: bool = False


class Session(NamedTuple):
    """A person signed in on a device in one role, until it ends; one that `must_change` their secret does only that."""

    token_hash: str
    person: str
    role: str
    device: str
    created_ms: int
    seen_ms: int
    ends_ms: int
    must_change: bool = False


class Device(NamedTuple):
    """A device the owner enrolled; a revoked one is kept so that its name is not taken again unseen."""

    id: str
    title: str
    bench: str | None
    key_hash: str
    enrolled_ms: int
    revoked_ms: int | None = None
    public_key: str | None = None


class Passkey(NamedTuple):
    """A passkey of a person, by its id, with its public half; the secret half never leaves the person's device."""

    id: str
    person: str
    title: str
    public_key: bytes
    sign_count: int
    made_ms: int
    used_ms: int | None = None


class FailedTry(NamedTuple):
    """How often a person was refused in a row on a device, and until when the next try waits."""

    person: str
    device: str
    tries: int
    last_ms: int
    wait_until_ms: int
