"""The pepper: a secret beside the record that goes into every PIN's hash, so that the database alone tells no PIN."""

import os
import secrets
from pathlib import Path

FILE_NAME = "record.pepper"
BYTES = 32


def find_pepper(folder: Path) -> bytes:
    """Give the pepper of a data folder, making one where there is none; an existing one is never written over."""
    file = folder / FILE_NAME
    try:
        made = os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:
        return file.read_bytes()
    with os.fdopen(made, "wb") as kept:
        kept.write(secrets.token_bytes(BYTES))
        kept.flush()
        os.fsync(kept.fileno())
    return file.read_bytes()
