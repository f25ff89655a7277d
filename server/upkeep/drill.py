"""The drill: the backup is restored into a folder of its own, and everything in it is recomputed."""

from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from server.record.copying import how_far
from server.record.record_check import CannotCheck, check_record
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


def _misnamed(manifest: Manifest) -> Iterator[str]:
    """Say which file the lines name by its SHA-256 had other bytes already when it was copied."""
    for kept in manifest.files:
        if kept.path.startswith(f"{BESIDE}/record/files/") and kept.path.rpartition("/")[2] != kept.sha256:
            yield f"{kept.path} has other bytes than its name promises, and had when it was copied"


def _recomputed(backup: Path, into: Path) -> Drilled:
    manifest = restore(backup, into)
    file = record_in(into)
    odd = check_record(f"sqlite:///{file}", into).odd
    odd = (*odd, *_misnamed(manifest))
    reached = how_far(file)
    if (reached.lines, shown_root(reached.root)) != (manifest.lines, manifest.root):
        said = f"{reached.lines} lines with root {shown_root(reached.root)} are found in it"
        odd = (*odd, f"{said}, expected {manifest.lines} with root {manifest.root}")
    return Drilled(backup.name, manifest.made, reached.lines, shown_root(reached.root), odd)
