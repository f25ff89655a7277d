"""What the owner's page says of the backups: how old the last one proved good is, and what to do if it is late."""

from dataclasses import dataclass

from server.settings import Settings
from server.upkeep.backup_log import BackupLog, read_backup_log

_HOUR_MS = 3_600_000
_LATE_AFTER_H = 26


@dataclass(frozen=True, slots=True)
class BackupState:
    """`good` where nothing has to be done; `made` and `proved` moments in ms UTC, none where there was none yet."""

    good: bool
    sentence: str
    made_ms: int | None
    proved_ms: int | None
    lines: int
    root: str


def backup_state(settings: Settings, now_ms: int) -> BackupState:
    """Give the state of the backups of a data folder, for its owner."""
    log = read_backup_log(settings.data_folder)
    trouble = _trouble(settings, log, now_ms)
    age_h = round((now_ms - (log.proved_made_ms or now_ms)) / _HOUR_MS)
    ago = f"{age_h} hour{'s' if age_h != 1 else ''} ago" if age_h else "within the last hour"
    good = f"The backup made {ago} was restored and recomputed: {log.lines} lines, as they were."
    return BackupState(trouble is None, trouble or good, log.made_ms, log.proved_made_ms, log.lines, log.root)


def _trouble(settings: Settings, log: BackupLog, now_ms: int) -> str | None:
    if settings.database.startswith("postgresql"):
        return "The record lies in PostgreSQL: see that its own backups are made and tried."
    if log.failed:
        return f"The last backup failed: {log.failed}."
    if log.drill_failed:
        return f"A backup could not be proved: {log.drill_failed}. Make another, and look after the disk it lies on."
    if log.proved_made_ms is None:
        return "No backup was proved yet. The service makes one within its first minutes, or run: strawline backup."
    late_h = max(_LATE_AFTER_H, settings.backup_every_hours + 2)
    if now_ms - log.proved_made_ms > late_h * _HOUR_MS:
        days = (now_ms - log.proved_made_ms) // (24 * _HOUR_MS)
        return f"The last backup proved good is {days} days old. Look whether the service runs and its disk has room."
    return None
