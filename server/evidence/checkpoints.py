"""Checkpoints as C2SP tlog-checkpoint has them: whose record, how many entries, and the root over them all, signed."""

import re
from base64 import b64decode, b64encode
from collections.abc import Iterable, Sequence
from hashlib import sha256
from typing import NamedTuple

from server.evidence.note_keys import NoteKey, NoteSigner
from server.evidence.notes import open_note, sign_note, text_of
from server.evidence.proofs import consistency_holds
from server.evidence.refusals import NoteRefused

_SIZE = re.compile(r"[1-9][0-9]{0,17}")
_LINES = 3


class Checkpoint(NamedTuple):
    """What is signed: the record's name, its number of entries, and the root of the tree over them."""

    origin: str
    size: int
    root: bytes

    def text(self) -> str:
        """Write the three lines that are signed; nothing else goes in, since no witness would check it."""
        return f"{self.origin}\n{self.size}\n{b64encode(self.root).decode()}\n"

    def digest(self) -> bytes:
        """Hash the signed text, for the next seal to name; signatures added later leave it as it is."""
        return sha256(self.text().encode()).digest()

    def continues(self, older: "Checkpoint", path: Sequence[bytes]) -> bool:
        """Say whether both tell one history: same record, and all entries of the older one come first in this one."""
        return self.origin == older.origin and consistency_holds(older.size, self.size, path, older.root, self.root)


def sign_checkpoint(checkpoint: Checkpoint, signer: NoteSigner) -> bytes:
    """Sign a checkpoint; keep size and root before the note leaves the house, so that no second one is signed."""
    return sign_note(_read(checkpoint.text()).text(), signer)


def open_checkpoint(note: bytes, keys: Iterable[NoteKey]) -> Checkpoint:
    """Give the checkpoint that a known key has signed; refuse any other note."""
    return _read(open_note(note, keys))


def read_unsigned(note: bytes) -> Checkpoint:
    """Give what a note says, whoever signed it: to compare with what is kept of it, never to believe."""
    return _read(text_of(note))


def _read(text: str) -> Checkpoint:
    lines = text.split("\n")
    if len(lines) != _LINES + 1 or not lines[0]:
        raise NoteRefused("checkpoint", text, "three lines: the record's name, its size and its root")
    origin, size, encoded, _ = lines
    if not _SIZE.fullmatch(size):
        raise NoteRefused("size", size, "a whole number from 1 on, without leading zeros")
    try:
        root = b64decode(encoded, validate=True)
    except ValueError:
        root = b""
    if len(root) != 32 or b64encode(root).decode() != encoded:
        raise NoteRefused("root", encoded, "base64 of 32 bytes")
    return Checkpoint(origin, int(size), root)
