"""What the service remembers of its backups between starts: the last one, the last one proved good, what failed."""

import json
from dataclasses import asdict, dataclass, replace
from pathlib import Path

from server.upkeep.backup import Backup
from server.upkeep.drill import Drilled
from server.upkeep.secret_files import write_whole

# Hidden, so that no backup carries it into a restored folder.
FILE_NAME = ".backups.json"


@dataclass(frozen=True, slots=True)
class BackupLog:
    """Moments in ms UTC; a proved backup is one that a drill restored and recomputed without finding anything odd."""

    made_ms: int | None = None
    backup: str | None = None
    failed: str | None = None
    tried_ms: int | None = None
    proved: str | None = None
    proved_made_ms: int | None = None
    proved_ms: int | None = None
    lines: int = 0
    root: str = ""
    drill_failed: str | None = None

    def with_backup(self, made: Backup, now_ms: int) -> "BackupLog":
        """Note a backup that was made."""
        return replace(self, made_ms=now_ms, tried_ms=now_ms, backup=made.folder.name, failed=None)

    def with_failure(self, why: str, now_ms: int) -> "BackupLog":
        """Note a backup that could not be made."""
        return replace(self, tried_ms=now_ms, failed=why)

    def with_drill(self, drilled: Drilled, made_ms: int, now_ms: int) -> "BackupLog":
        """Note what a drill found."""
        if drilled.odd:
            return replace(self, drill_failed=f"{drilled.backup}: {drilled.odd[0]}")
        return replace(
            self,
            proved=drilled.backup,
            proved_made_ms=made_ms,
            proved_ms=now_ms,
            lines=drilled.lines,
            root=drilled.root,
            drill_failed=None,
        )


def read_backup_log(data_folder: Path) -> BackupLog:
    """Read it; where there is none, or none that can be read, nothing is known."""
    try:
        return BackupLog(**json.loads((data_folder / FILE_NAME).read_text(encoding="utf-8")))
    except (OSError, ValueError, TypeError):
        return BackupLog()


def keep_backup_log(data_folder: Path, log: BackupLog) -> None:
    """Keep it."""
    write_whole(data_folder / FILE_NAME, json.dumps(asdict(log), indent=1).encode() + b"\n", secret=True)
