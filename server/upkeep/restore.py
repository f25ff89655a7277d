"""Restores a backup into an empty folder, as a copy that takes no entries until it is told how to go on."""

import shutil
from pathlib import Path

from server.evidence.note_keys import read_key
from server.record.copying import sync
from server.record.saying import Say, unsaid
from server.record.signing_key import note_key
from server.upkeep.backup import BESIDE, RECORD
from server.upkeep.manifest import BackupDamaged, Manifest, compare_files, describe, read_manifest

MADE_FROM = "restored-from.txt"
_MEGABYTE = 1_000_000
_AT_ONCE = 4 * _MEGABYTE


class FolderNotEmpty(Exception):
    """A backup is restored into an empty folder only, so that nothing is written over."""


def restore(backup: Path, into: Path, say: Say = unsaid) -> Manifest:
    """Compare every file with the manifest, copy it, and give what the backup says of itself."""
    if into.exists() and (not into.is_dir() or any(into.iterdir())):
        raise FolderNotEmpty(f"{into} is not empty; name a new or empty folder, so that nothing is written over")
    manifest = read_manifest(backup)
    compare_files(backup, manifest, say)
    into.mkdir(mode=0o700, parents=True, exist_ok=True)
    try:
        _put_into(into, backup, manifest, say)
    except BaseException:
        # It was empty, so all that lies there is half of a copy.
        shutil.rmtree(into, ignore_errors=True)
        raise
    return manifest


def _put_into(into: Path, backup: Path, manifest: Manifest, say: Say) -> None:
    for kept in manifest.files:
        place = into / Path(kept.path).relative_to(BESIDE) if kept.path.startswith(f"{BESIDE}/") else into / kept.path
        place.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        _copy(backup / kept.path, place, say)
        sync(place)
        # Read anew from where it now lies, since the copying itself may go wrong.
        if describe(place, into, say).sha256 != kept.sha256:
            raise BackupDamaged(f"{place} did not arrive as it lies in {backup.name}; look after that disk first")
    for key in manifest.keys:
        note_key(into, read_key(key))
    (into / MADE_FROM).write_text(f"{manifest.made}\n{backup.name}\n", encoding="utf-8")
    sync(into)


def _copy(kept: Path, place: Path, say: Say) -> None:
    size = kept.stat().st_size // _MEGABYTE
    with kept.open("rb", buffering=0) as source, place.open("wb") as target:
        while some := source.read(_AT_ONCE):
            target.write(some)
            say(f"megabytes of {kept.name} copied", source.tell() // _MEGABYTE, size)
    shutil.copystat(kept, place)


def record_in(folder: Path) -> Path:
    """Give the record's file in a restored folder."""
    return folder / RECORD


def made_from(folder: Path) -> str:
    """Give when the backup a folder was restored from was made, as far as that is known."""
    told = folder / MADE_FROM
    return told.read_text(encoding="utf-8").partition("\n")[0] if told.exists() else "unknown"
