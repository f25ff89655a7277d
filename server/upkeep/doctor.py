"""Goes through everything a shop should look at before it relies on the service, and says what to do."""

from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path

from server.record.looking import CannotLook, look_at_record
from server.record.opening import file_of
from server.settings import Settings
from server.upkeep import disk
from server.upkeep.backup_log import read_backup_log
from server.upkeep.certificate import RENEW_DAYS, CertificateBroken, read_certificate
from server.upkeep.clock_state import ClockState, kept_in_step
from server.upkeep.parts import FAILING, FINE, LOOK, Part
from server.upkeep.secret_files import readable_by_others
from server.upkeep.way_to_serve import is_this_machine

_AUTHORITY_DAYS = 365
_SECRETS = ("record.key", "record.pepper", "certificate/authority.pem", "certificate/server.pem")


def examine(settings: Settings, now_ms: int, sync_seconds: Callable[[Path], float] = disk.sync_seconds) -> list[Part]:
    """Look at each thing; a failing one has to be mended, one to look at need not be a fault."""
    return [
        *_record(settings, now_ms),
        _room(settings),
        _keeping(sync_seconds(settings.data_folder)),
        *_secrets(settings.data_folder),
        certificate_part(settings, now_ms),
        _backups(settings, now_ms),
    ]


def _record(settings: Settings, now_ms: int) -> Iterator[Part]:
    try:
        looked = look_at_record(settings.database_url)
    except CannotLook as slip:
        yield Part("record", FAILING, str(slip))
        return
    condition = looked.condition
    odd = [*(f"the guard {name} is missing or altered; run migrate" for name in condition.missing_guards), *looked.odd]
    if odd:
        yield Part("record", FAILING, "; ".join(odd))
    elif condition.copy:
        yield Part("record", LOOK, "a restored copy, which takes no entries until `strawline continue`")
    else:
        yield Part("record", FINE, f"{condition.lines} lines, guards in place, its end holds")
    engine = f"{condition.engine} {condition.version}"
    yield Part("engine", LOOK if condition.notes else FINE, "; ".join(condition.notes) or engine)
    clock = ClockState(kept_in_step(), 0.0, max(0.0, (looked.last_received_ms - now_ms) / 1000))
    yield Part("clock", FINE if clock.believable else LOOK, str(clock))


def _room(settings: Settings) -> Part:
    free = disk.free_bytes(settings.data_folder)
    state = FAILING if free < disk.TOO_LITTLE_BYTES else LOOK if free < disk.SCARCE_BYTES else FINE
    return Part("room", state, f"{free // 1_000_000} MB are free")


def _keeping(took_s: float) -> Part:
    said = f"keeping one page for good takes {1000 * took_s:.2f} ms"
    if took_s < disk.TOO_QUICK_S:
        why = "quicker than a disk without a battery of its own can be, so it may only say that it kept it"
        return Part("keeping", LOOK, f"{said}, {why}; pull the plug once while entries are sent, then run check-record")
    return Part("keeping", LOOK if took_s > disk.SLOW_S else FINE, said)


def _secrets(folder: Path) -> Iterator[Part]:
    there = [folder / name for name in _SECRETS if (folder / name).exists()]
    open_ones = [path for path in there if readable_by_others(path)]
    for path in open_ones:
        yield Part("secrets", FAILING, f"others on this machine can read {path.name}; run: chmod 600 {path}")
    if not open_ones:
        yield Part("secrets", FINE, f"{len(there)} secret files, for their owner only")


def certificate_part(settings: Settings, now_ms: int) -> Part:
    """Look at the certificate: whether there is one where one is needed, and how long it lasts."""
    now = datetime.fromtimestamp(now_ms / 1000, UTC)
    try:
        found = read_certificate(settings.data_folder)
    except CertificateBroken as broken:
        return Part("certificate", FAILING, str(broken))
    if found is None:
        alone = is_this_machine(settings.host)
        said = "none, so this machine only is served" if alone else f"none, so {settings.host} cannot be served"
        return Part("certificate", FINE if alone else FAILING, f"{said}; `strawline certificate` makes one")
    if found.days_left(now) <= 0:
        return Part("certificate", FAILING, f"it ended on {found.ends:%Y-%m-%d}; start the service, which renews it")
    if (found.authority.not_valid_after_utc - now).days < _AUTHORITY_DAYS:
        said = f"its authority ends on {found.authority.not_valid_after_utc:%Y-%m-%d}; make one with --new-authority"
        return Part("certificate", LOOK, said)
    soon = found.days_left(now) < RENEW_DAYS
    return Part("certificate", LOOK if soon else FINE, f"for {found.names}, until {found.ends:%Y-%m-%d}")


def _backups(settings: Settings, now_ms: int) -> Part:
    if file_of(settings.database_url) is None:
        return Part("backups", LOOK, "the record lies in PostgreSQL: see that its own backups are made and tried")
    log = read_backup_log(settings.data_folder)
    if log.failed or log.drill_failed:
        return Part("backups", FAILING, log.failed or log.drill_failed or "")
    if log.proved_made_ms is None:
        return Part("backups", LOOK, "none was proved yet; run `strawline backup`, then `strawline drill`")
    hours = (now_ms - log.proved_made_ms) / 3_600_000
    said = f"the last one proved good is {hours:.0f} h old"
    if _on_one_disk(settings):
        return Part("backups", LOOK, f"{said}, but lies on the record's own disk; set backup_folder to another one")
    late = settings.backup_every_hours and hours > 2 * settings.backup_every_hours
    return Part("backups", FAILING if late else FINE, said)


def _on_one_disk(settings: Settings) -> bool:
    file = file_of(settings.database_url)
    return bool(file and settings.shelf.exists() and file.stat().st_dev == settings.shelf.stat().st_dev)
