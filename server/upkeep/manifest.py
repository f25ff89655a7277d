"""What a backup says of itself: how far the record in it reaches, and the SHA-256 of every file and of these words."""

import json
from base64 import b64encode
from hashlib import sha256
from pathlib import Path
from typing import Any, NamedTuple

from server.record.saying import Say, unsaid

NAME = "manifest.json"
_FORMAT = "strawline backup 1"
_MEGABYTE = 1_000_000
_AT_ONCE = 4 * _MEGABYTE


class BackupDamaged(Exception):
    """A backup is not what it was when it was made."""


class KeptFile(NamedTuple):
    """One file of a backup, by its path inside."""

    path: str
    bytes: int
    sha256: str


class Manifest(NamedTuple):
    """When a backup was made, how far the record in it reaches, the keys it is known by, and its files."""

    made: str
    lines: int
    root: str
    checkpoint: str | None
    keys: tuple[str, ...]
    files: tuple[KeptFile, ...]


def describe(path: Path, folder: Path, say: Say = unsaid) -> KeptFile:
    """Look at one file of a folder."""
    size, digest = path.stat().st_size, sha256()
    with path.open("rb", buffering=0) as file:
        while some := file.read(_AT_ONCE):
            digest.update(some)
            say(f"megabytes of {path.name} read", file.tell() // _MEGABYTE, size // _MEGABYTE)
    return KeptFile(path.relative_to(folder).as_posix(), size, digest.hexdigest())


def written(manifest: Manifest) -> bytes:
    """Write a manifest, its own SHA-256 on the last line."""
    told = manifest._asdict() | {"format": _FORMAT, "files": [each._asdict() for each in manifest.files]}
    text = json.dumps(told, indent=1, sort_keys=True).encode() + b"\n"
    return text + sha256(text).hexdigest().encode() + b"\n"


def read_manifest(folder: Path) -> Manifest:
    """Read the manifest of a backup; refuse one that was altered."""
    try:
        content = (folder / NAME).read_bytes()
    except OSError as slip:
        raise BackupDamaged(f"{folder.name}: its {NAME} cannot be read ({slip}); take another backup") from slip
    text, digest = content[:-65], content[-65:]
    if digest != sha256(text).hexdigest().encode() + b"\n":
        raise BackupDamaged(f"{folder.name}: its {NAME} is not as it was written; take another backup")
    told: dict[str, Any] = json.loads(text)
    if told.pop("format") != _FORMAT:
        raise BackupDamaged(f"{folder.name}: expected {_FORMAT!r}; it was made by another version of this program")
    files = tuple(KeptFile(**each) for each in told.pop("files"))
    return Manifest(**(told | {"keys": tuple(told["keys"])}), files=files)


def compare_files(folder: Path, manifest: Manifest, say: Say = unsaid) -> None:
    """Refuse a backup of which a file is missing, added or altered."""
    found = {describe(path, folder, say) for path in folder.rglob("*") if path.is_file() and path != folder / NAME}
    if odd := sorted(found ^ set(manifest.files)):
        raise BackupDamaged(
            f"{folder.name}: the file {odd[0].path} is not as it was when the backup was made; take another backup"
        )


def shown_root(root: bytes) -> str:
    """Write a root as checkpoints write it."""
    return b64encode(root).decode()
