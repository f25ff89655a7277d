"""The parts a service needs to be ready, each looked at anew: the record, the disk, the clock, judging, the backups."""

from collections.abc import Callable
from concurrent.futures import TimeoutError as TookTooLong
from typing import NamedTuple

from server.record.book_of_lines import Record
from server.record.condition import Condition
from server.record.troubles import RecordTrouble
from server.record.written import Written
from server.settings import Settings
from server.upkeep.backup_log import read_backup_log
from server.upkeep.clock_state import ClockWatch
from server.upkeep.disk import SCARCE_BYTES, TOO_LITTLE_BYTES, free_bytes

_PATIENCE_S = 2.0
_HOUR_MS = 3_600_000
FINE, LOOK, FAILING = "fine", "look", "failing"


class Part(NamedTuple):
    """A part by name, how it is (`fine`; `look`: it works, somebody should look; `failing`), and a sentence."""

    name: str
    state: str
    sentence: str


class Watched(NamedTuple):
    """What is looked at, and by which clock [ms, UTC]."""

    record: Record
    settings: Settings
    clock: ClockWatch
    trouble_judging: Callable[[], str | None]
    now: Callable[[], int]


def look_at_parts(watched: Watched) -> list[Part]:
    """Look at every part; only a failing one makes the service not ready."""
    condition = watched.record.condition()
    return [
        _record(watched.record, condition),
        _disk(watched.settings),
        _clock(watched),
        _judging(watched.trouble_judging()),
        _backup(watched),
    ]


def _record(record: Record, condition: Condition) -> Part:
    if condition.closed:
        return Part("record", FAILING, condition.closed)
    if record.tally.room_is_missing:
        return Part("record", FAILING, "the disk was full when something was last to be kept; make room")
    try:
        # Proves that the writer answers and can begin and end a transaction; nothing is written.
        record.write(lambda _: Written(lambda _: None)).result(_PATIENCE_S)
    except TookTooLong:
        return Part("record", FAILING, f"the writer did not answer within {_PATIENCE_S:g} s")
    except RecordTrouble as trouble:
        return Part("record", FAILING, str(trouble))
    if condition.missing_guards:
        guard = condition.missing_guards[0]
        return Part("record", FAILING, f"the guard {guard} is missing or altered; run check-record")
    return Part("record", LOOK if condition.notes else FINE, "; ".join(condition.notes) or "entries are taken")


def _disk(settings: Settings) -> Part:
    free = free_bytes(settings.data_folder)
    said = f"{free // 1_000_000} MB are free"
    if free < TOO_LITTLE_BYTES:
        return Part("disk", FAILING, f"{said}; make room before the disk is full")
    return Part("disk", LOOK if free < SCARCE_BYTES else FINE, said)


def _clock(watched: Watched) -> Part:
    with watched.record.reads() as reads:
        state = watched.clock.state(reads.last_received_ms())
    return Part("clock", FINE if state.believable else LOOK, str(state))


def _judging(trouble: str | None) -> Part:
    return Part("judging", LOOK if trouble else FINE, trouble or "what is taken is judged")


def _backup(watched: Watched) -> Part:
    log, settings = read_backup_log(watched.settings.data_folder), watched.settings
    if settings.database.startswith("postgresql"):
        return Part("backup", FINE, "left to PostgreSQL's own means")
    for trouble in (log.failed, log.drill_failed):
        if trouble:
            return Part("backup", LOOK, trouble)
    if log.proved_made_ms is None:
        return Part("backup", LOOK, "no backup was proved yet; `strawline backup`, then `strawline drill`")
    age_h = (watched.now() - log.proved_made_ms) / _HOUR_MS
    late = settings.backup_every_hours and age_h > settings.backup_every_hours + _GRACE_H
    return Part("backup", LOOK if late else FINE, f"the last one proved good is {age_h:.0f} h old")


_GRACE_H = 2
