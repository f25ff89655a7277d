"""The drill: the backup is restored into a folder of its own, and everything in it is recomputed."""

import errno
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from server.record.copying import how_far
from server.record.record_check import CannotCheck, check_files, check_record
from server.record.saying import Say, unsaid
from server.upkeep.backup import BESIDE
from server.upkeep.disk import TOO_LITTLE_BYTES, free_bytes
from server.upkeep.manifest import BackupDamaged, Manifest, shown_root
from server.upkeep.restore import record_in, restore
from server.upkeep.shelf import DRILLED_IN, clear_what_was_left, held


class Drilled(NamedTuple):
    """Which backup was restored, how far its record reaches, and a sentence for everything that does not hold."""

    backup: str
    made: str
    lines: int
    root: str
    odd: tuple[str, ...]


def drill(backup: Path, say: Say = unsaid) -> Drilled:
    """Restore a backup, recompute the root over every line and compare it with what the backup says of itself."""
    clear_what_was_left(backup.parent)
    with TemporaryDirectory(prefix=DRILLED_IN, dir=backup.parent) as name, held(Path(name)):
        try:
            _refuse_to_fill_the_disk(backup)
            return _recomputed(backup, Path(name), say)
        except (BackupDamaged, CannotCheck, OSError) as slip:
            return Drilled(backup.name, "", 0, "", (str(slip),))


def _refuse_to_fill_the_disk(backup: Path) -> None:
    # As with the backup itself: the record beside it goes first.
    needed = sum(each.stat().st_size for each in backup.rglob("*") if each.is_file())
    if free_bytes(backup.parent) < needed + TOO_LITTLE_BYTES:
        raise OSError(errno.ENOSPC, "restored aside it would leave too little room on its disk, so it was not tried")


def _misnamed(manifest: Manifest) -> Iterator[tuple[str, str]]:
    """Say which file had other bytes than its name already when it was copied, whether a line names it or none."""
    for kept in manifest.files:
        named = kept.path.rpartition("/")[2]
        if kept.path.startswith(f"{BESIDE}/record/files/") and named != kept.sha256:
            yield named, f"{kept.path} has other bytes than its name promises, and had when it was copied"


def _recomputed(backup: Path, into: Path, say: Say) -> Drilled:
    manifest = restore(backup, into, say)
    file = record_in(into)
    url = f"sqlite:///{file}"
    odd = (*check_record(url, into, say=say).odd, *check_files(url, into, say).odd)
    odd = (*odd, *(said for sha256, said in _misnamed(manifest) if not any(sha256 in each for each in odd)))
    reached = how_far(file, say)
    if (reached.lines, shown_root(reached.root)) != (manifest.lines, manifest.root):
        said = f"{reached.lines} lines with root {shown_root(reached.root)} are found in it"
        odd = (*odd, f"{said}, expected {manifest.lines} with root {manifest.root}")
    return Drilled(backup.name, manifest.made, reached.lines, shown_root(reached.root), odd)
