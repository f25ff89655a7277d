"""What the owner sees of the service itself: each thing it needs, how it is, since when, and what to do about it."""

from dataclasses import dataclass

from server.record.sealing import SignedCheckpoint
from server.settings import Settings
from server.upkeep.backup_log import BackupLog, read_backup_log
from server.upkeep.doctor import certificate_part
from server.upkeep.parts import FAILING, FINE, LOOK, Watched, look_at_parts
from server.work.backup_state import backup_state

_HOUR_MS = 3_600_000
_NAMES = {"record": "Record", "disk": "Room on the disk", "clock": "Clock", "judging": "Judging"}
_TO_DO = {
    ("disk", LOOK): "Make room soon, or move the backups to another disk with the setting backup_folder.",
    ("disk", FAILING): "Make room now, or move the backups to another disk with the setting backup_folder.",
    ("judging", LOOK): "Entries are taken all the same. Start the service anew; what was not judged is judged then.",
    ("record", FAILING): "Keep entries on the tablets meanwhile; a tablet loses none of them.",
}
"""What a part's own sentence does not say already."""


@dataclass(frozen=True, slots=True)
class UpkeepLine:
    """One thing: its name, `fine`, `look` or `failing`, a sentence, when it was last done, and what is to be done."""

    name: str
    state: str
    sentence: str
    at_ms: int | None = None
    to_do: str = ""


def upkeep_sheet(watched: Watched) -> tuple[UpkeepLine, ...]:
    """Look at everything, in the order in which it would keep the shop from working."""
    parts = {part.name: part for part in look_at_parts(watched)}
    parts["certificate"] = certificate_part(watched.settings, watched.now())
    standing = [
        UpkeepLine(
            _NAMES.get(name, "Certificate"),
            part.state,
            part.sentence,
            to_do=_TO_DO.get((name, part.state), ""),
        )
        for name, part in parts.items()
        if name != "backup"
    ]
    log = read_backup_log(watched.settings.data_folder)
    return (*standing, _checkpoint(watched), _backup(watched, log), _drill(watched, log))


def upkeep_word(watched: Watched) -> UpkeepLine:
    """Say in one line how everything is; the backups are always told, since nobody asks for them until too late."""
    lines = upkeep_sheet(watched)
    backups = backup_state(watched.settings, watched.now()).sentence
    wanting = [each for each in lines if each.state != FINE]
    if not wanting:
        return UpkeepLine("Upkeep", FINE, f"Everything is fine. {backups}")
    worst = FAILING if any(each.state == FAILING for each in wanting) else LOOK
    return UpkeepLine("Upkeep", worst, f"To look at: {', '.join(each.name.lower() for each in wanting)}. {backups}")


def _checkpoint(watched: Watched) -> UpkeepLine:
    with watched.record.reads() as reads:
        newest: SignedCheckpoint | None = reads.newest_checkpoint()
        lines = reads.last_position()
    if newest is None:
        return UpkeepLine("Last checkpoint", LOOK, "none was signed yet", to_do=_SIGNED)
    since = lines - newest.checkpoint.size
    said = f"signed over {newest.checkpoint.size} lines as {newest.checkpoint.origin}; {since} lines came since"
    return UpkeepLine("Last checkpoint", FINE, said, newest.made_ms)


def _backup(watched: Watched, log: BackupLog) -> UpkeepLine:
    settings = watched.settings
    if in_postgres(settings):
        return UpkeepLine("Last backup", FINE, "left to PostgreSQL's own means; keep the data folder beside it")
    if log.failed:
        return UpkeepLine("Last backup", LOOK, log.failed, log.tried_ms, "It is tried again each hour.")
    if log.made_ms is None:
        return UpkeepLine("Last backup", LOOK, "none was made yet", to_do=_MAKE_ONE)
    every = f"the next is due {settings.backup_every_hours} h after it" if settings.backup_every_hours else _BY_HAND
    return UpkeepLine("Last backup", FINE, f"{log.backup} in {settings.shelf}; {every}", log.made_ms)


def _drill(watched: Watched, log: BackupLog) -> UpkeepLine:
    state = backup_state(watched.settings, watched.now())
    to_do = "" if state.good else _OWN_MEANS if in_postgres(watched.settings) else _PROVE_ONE
    return UpkeepLine("Last drill", FINE if state.good else LOOK, state.sentence, log.proved_ms, to_do)


def in_postgres(settings: Settings) -> bool:
    """Say whether backups are made by the database's own means, since the record lies in PostgreSQL."""
    return settings.database.startswith("postgresql")


_PROVE_ONE = "On the machine: strawline backup, then strawline drill."
_OWN_MEANS = "Restore a dump into another database, and run strawline check-record on it; docs/upkeep.md says how."
_SIGNED = "One is signed after every thousand lines, and when the service is stopped."
_MAKE_ONE = "The service makes one within its first minutes, or on the machine: strawline backup."
_BY_HAND = "none is made by itself, since backup_every_hours is 0"
