"""The backups on the shelf: which there are, which is the newest, and which are let go."""

import fcntl
import os
import shutil
from collections.abc import Collection, Iterator
from contextlib import contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path

PREFIX = "backup-"
DRILLED_IN = ".drill-"
_NAMED_BY = "%Y%m%dT%H%M%S.%fZ"


def backups_on(shelf: Path) -> list[Path]:
    """Give the backups, the oldest first."""
    return sorted(folder for folder in shelf.glob(f"{PREFIX}*") if folder.is_dir())


def let_go(shelf: Path, keep: int, needed: Collection[str] = ()) -> list[Path]:
    """Remove the oldest beyond so many; never one that is needed, such as the last one a drill found good."""
    gone = [folder for folder in backups_on(shelf)[:-keep] if folder.name not in needed]
    for folder in gone:
        shutil.rmtree(folder)
    return gone


def in_the_making(shelf: Path, name: str) -> Path:
    """Give where a backup of this name is made, until it is whole."""
    return shelf / f".{name}.part"


@contextmanager
def held(folder: Path) -> Iterator[None]:
    """Hold a folder while something is made in it; whatever ends the process lets it go."""
    opened = os.open(folder, os.O_RDONLY)
    try:
        fcntl.flock(opened, fcntl.LOCK_EX | fcntl.LOCK_NB)
        yield
    finally:
        os.close(opened)


def clear_what_was_left(shelf: Path) -> None:
    """Remove what a backup or a drill left half made when its process was killed: each is as large as the record."""
    for folder in (*shelf.glob(f".{PREFIX}*.part"), *shelf.glob(f"{DRILLED_IN}*")):
        with suppress(BlockingIOError), held(folder):
            shutil.rmtree(folder, ignore_errors=True)


def name_of(at_ms: int) -> str:
    """Name a backup by the moment it was made [ms, UTC]."""
    return PREFIX + datetime.fromtimestamp(at_ms / 1000, UTC).strftime(_NAMED_BY)[:-4] + "Z"


def made_at(backup: Path) -> datetime:
    """Give when a backup was made, by its name; one that somebody named otherwise is as old as its folder."""
    try:
        return datetime.strptime(backup.name.removeprefix(PREFIX), _NAMED_BY).replace(tzinfo=UTC)
    except ValueError:
        return datetime.fromtimestamp(backup.stat().st_mtime, UTC)
