"""The drill: the backup is restored into a folder of its own, and everything in it is recomputed."""

from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from server.record.copying import how_far
from server.record.record_check import CannotCheck, check_files, check_record
from server.upkeep.backup import BESIDE
from server.upkeep.manifest import BackupDamaged, Manifest, shown_root
from server.upkeep.restore import record_in, restore


class Drilled(NamedTuple):
    """Which backup was restored, how far its record reaches, and a sentence for everything that does not hold."""

    backup: str
    made: str
    lines: int
    root: str
    odd: tuple[str, ...]


def drill(backup: Path) -> Drilled:
    """Restore a backup, recompute the root over every line and compare it with what the backup says of itself."""
    with TemporaryDirectory(prefix=".drill-", dir=backup.parent) as name:
        try:
            return _recomputed(backup, Path(name))
        except (BackupDamaged, CannotCheck, OSError) as slip:
            return Drilled(backup.name, "", 0, "", (str(slip),))


def _misnamed(manifest: Manifest) -> Iterator[tuple[str, str]]:
    """Say which file had other bytes than its name already when it was copied, whether a line names it or none."""
    for kept in manifest.files:
        named = kept.path.rpartition("/")[2]
        if kept.path.startswith(f"{BESIDE}/record/files/") and named != kept.sha256:
            yield named, f"{kept.path} has other bytes than its name promises, and had when it was copied"


def _recomputed(backup: Path, into: Path) -> Drilled:
    manifest = restore(backup, into)
    file = record_in(into)
    url = f"sqlite:///{file}"
    odd = (*check_record(url, into).odd, *check_files(url, into).odd)
    odd = (*odd, *(said for sha256, said in _misnamed(manifest) if not any(sha256 in each for each in odd)))
    reached = how_far(file)
    if (reached.lines, shown_root(reached.root)) != (manifest.lines, manifest.root):
        said = f"{reached.lines} lines with root {shown_root(reached.root)} are found in it"
        odd = (*odd, f"{said}, expected {manifest.lines} with root {manifest.root}")
    return Drilled(backup.name, manifest.made, reached.lines, shown_root(reached.root), odd)
