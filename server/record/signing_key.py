"""The key that signs checkpoints: made once, kept in the data folder for its owner's eyes only."""

import os
import secrets
from pathlib import Path

from server.evidence.note_keys import NoteSigner
from server.record.troubles import RecordUnfit

FILE_NAME = "record.key"


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
