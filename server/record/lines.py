"""A line on its way into the record, where it was placed, and a line as it is read back."""

from typing import NamedTuple

from server.evidence.chain_subject import ChainSubject

HOUSE = "house"
"""The device name of lines made by the service itself and not by a tablet."""
UNNAMED = "unnamed"
"""The device name of a sending that named none."""
NOT_UNDERSTOOD = "taken, not understood"
FIRST_STATES = ("taken", NOT_UNDERSTOOD)


class NewLine(NamedTuple):
    """A line to append: its bytes as sent and what is asked by; the writer gives it position, chains and leaf."""

    kind: str
    id: str
    device: str
    body: bytes
    received_ms: int
    sent_ms: int | None = None
    subjects: tuple[ChainSubject, ...] = ()
    problem: str | None = None
    state: str = "taken"
    delivery: str | None = None
    entry_kind: str | None = None
    boot: str | None = None
    seq: int | None = None
    mono_ms: int | None = None
    device_ms: int | None = None
    happened_ms: int | None = None
    frame: str | None = None
    of: str | None = None
    body_sha256: bytes = b""
    """Only for a repeat, which keeps no bytes of its own; otherwise the writer hashes the body."""


class Placed(NamedTuple):
    """Where a line stands in the record, for its receipt."""

    position: int
    id: str
    leaf: bytes
    received_ms: int


class StoredLine(NamedTuple):
    """A line as read back, bytes and all."""

    position: int
    id: str
    delivery: str | None
    kind: str
    entry_kind: str | None
    device: str
    boot: str | None
    seq: int | None
    mono_ms: int | None
    device_ms: int | None
    sent_ms: int | None
    happened_ms: int | None
    received_ms: int
    frame: str | None
    of: str | None
    state: str
    problem: str | None
    body: bytes
    body_sha256: bytes
    envelope: bytes
    leaf: bytes
