"""The key that signs checkpoints: made once, kept in the data folder for its owner's eyes only."""

import os
import secrets
from pathlib import Path

from server.evidence.note_keys import NoteKey, NoteSigner, read_key
from server.record.troubles import RecordUnfit

FILE_NAME = "record.key"
KNOWN_NAME = "record.keys"


def make_signer(folder: Path) -> NoteSigner:
    """Make a new key with a name nobody else has, and keep it; an existing key is never written over."""
    signer_name, secret = f"strawline-{secrets.token_hex(6)}", secrets.token_bytes(32)
    signer = NoteSigner(signer_name, secret)
    file = os.open(folder / FILE_NAME, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(file, "w") as kept:
        kept.write(f"{signer_name} {secret.hex()}\n")
        kept.flush()
        os.fsync(kept.fileno())
    return signer


def known_keys(folder: Path) -> tuple[NoteKey, ...]:
    """Give the public keys a record is known by: the one it signs by first, then those it signed by before."""
    signer = read_signer(folder)
    written = (folder / KNOWN_NAME).read_text().splitlines() if (folder / KNOWN_NAME).exists() else []
    keys = ([signer.key] if signer else []) + [read_key(line) for line in written]
    return tuple(dict.fromkeys(keys))


def note_key(folder: Path, key: NoteKey) -> None:
    """Keep a public key beside the record, so that what was signed by it can be checked without the secret."""
    if key not in known_keys(folder)[1:]:
        with (folder / KNOWN_NAME).open("a") as kept:
            kept.write(f"{key}\n")
            kept.flush()
            os.fsync(kept.fileno())


def retire_signer(folder: Path) -> None:
    """Sign by another key and name from now on; the old key is put aside, and stays known."""
    signer = read_signer(folder)
    if signer:
        note_key(folder, signer.key)
        (folder / FILE_NAME).rename(folder / f"{FILE_NAME}.{signer.key.name}")
    make_signer(folder)


def read_signer(folder: Path) -> NoteSigner | None:
    """Read the key of a data folder; none when there is none."""
    file = folder / FILE_NAME
    if not file.exists():
        return None
    name, _, secret = file.read_text().strip().partition(" ")
    try:
        return NoteSigner(name, bytes.fromhex(secret))
    except ValueError as slip:
        raise RecordUnfit(f"{FILE_NAME} is damaged ({slip}); put back the copy that was kept with the backup") from slip
