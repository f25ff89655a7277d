"""Backs up and drills for one data folder, by its settings, and notes what came of it."""

from server.facts.moment import parse_moment
from server.record.opening import file_of
from server.record.saying import Say, unsaid
from server.settings import Settings
from server.upkeep.backup import Backup, CannotBackUp, make_backup
from server.upkeep.backup_log import keep_backup_log, read_backup_log
from server.upkeep.drill import Drilled, drill
from server.upkeep.shelf import backups_on, let_go


class NoBackupYet(Exception):
    """There is nothing a drill could restore."""


def back_up(settings: Settings, now_ms: int, say: Say = unsaid) -> Backup:
    """Make a backup, note it, and let the oldest go; raises `CannotBackUp`, which is noted too."""
    log = read_backup_log(settings.data_folder)
    try:
        made = make_backup(
            settings.database_url,
            settings.data_folder,
            settings.shelf,
            now_ms,
            with_key=settings.backup_with_key,
            say=say,
        )
    except CannotBackUp as failed:
        keep_backup_log(settings.data_folder, log.with_failure(str(failed), now_ms))
        raise
    keep_backup_log(settings.data_folder, log.with_backup(made, now_ms))
    let_go(settings.shelf, settings.backup_keep, {log.proved} if log.proved else set())
    return made


def drill_newest(settings: Settings, now_ms: int, say: Say = unsaid) -> Drilled:
    """Restore the newest backup into a folder of its own, recompute everything, and note what was found."""
    newest = next(reversed(backups_on(settings.shelf)), None)
    if newest is None:
        raise NoBackupYet(f"there is no backup in {settings.shelf}; make one with `strawline backup`")
    drilled = drill(newest, say)
    made_ms = parse_moment(drilled.made) if drilled.made else 0
    log = read_backup_log(settings.data_folder)
    keep_backup_log(settings.data_folder, log.with_drill(drilled, made_ms, now_ms))
    return drilled


def backup_due(settings: Settings, now_ms: int) -> bool:
    """Say whether the next backup is due; one that failed is tried again after an hour."""
    if not settings.backup_every_hours or file_of(settings.database_url) is None:
        return False
    log = read_backup_log(settings.data_folder)
    if log.failed and log.tried_ms is not None:
        return now_ms - log.tried_ms >= _HOUR_MS
    return log.made_ms is None or now_ms - log.made_ms >= settings.backup_every_hours * _HOUR_MS


_HOUR_MS = 3_600_000
