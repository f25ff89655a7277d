"""Writes files whole or not at all, and secret ones for their owner's eyes only."""

import os
from pathlib import Path

from server.record.copying import sync


def write_whole(path: Path, content: bytes, *, secret: bool = False) -> None:
    """Put a file in place of the one before, all of it; a secret one can be read by nobody else at any moment."""
    part = path.with_name(f".{path.name}.part")
    part.unlink(missing_ok=True)
    opened = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600 if secret else 0o644)
    with os.fdopen(opened, "wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    part.rename(path)
    sync(path.parent)


def make_secret_folder(path: Path) -> None:
    """Make a folder that nobody else can look into, unless it is there."""
    path.mkdir(mode=0o700, parents=True, exist_ok=True)


def readable_by_others(path: Path) -> bool:
    """Say whether somebody other than its owner can read a file."""
    return bool(path.stat().st_mode & 0o077)
