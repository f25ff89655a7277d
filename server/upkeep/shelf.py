"""The backups on the shelf: which there are, which is the newest, and which are let go."""

import shutil
from collections.abc import Collection
from pathlib import Path

PREFIX = "backup-"


def backups_on(shelf: Path) -> list[Path]:
    """Give the backups, the oldest first."""
    return sorted(folder for folder in shelf.glob(f"{PREFIX}*") if folder.is_dir())


def let_go(shelf: Path, keep: int, needed: Collection[str] = ()) -> list[Path]:
    """Remove the oldest beyond so many; never one that is needed, such as the last one a drill found good."""
    gone = [folder for folder in backups_on(shelf)[:-keep] if folder.name not in needed]
    for folder in gone:
        shutil.rmtree(folder)
    return gone
