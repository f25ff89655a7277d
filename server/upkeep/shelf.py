"""The backups on the shelf: which there are, which is the newest, and which are let go."""

import shutil
from collections.abc import Collection
from datetime import UTC, datetime
from pathlib import Path

PREFIX = "backup-"
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


def name_of(at_ms: int) -> str:
    """Name a backup by the moment it was made [ms, UTC]."""
    return PREFIX + datetime.fromtimestamp(at_ms / 1000, UTC).strftime(_NAMED_BY)[:-4] + "Z"


def made_at(backup: Path) -> datetime:
    """Give when a backup was made, by its name; one that somebody named otherwise is as old as its folder."""
    try:
        return datetime.strptime(backup.name.removeprefix(PREFIX), _NAMED_BY).replace(tzinfo=UTC)
    except ValueError:
        return datetime.fromtimestamp(backup.stat().st_mtime, UTC)
