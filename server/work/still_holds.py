"""What may still hold a customer's details after they were removed from the record, told plainly, and until when."""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

from server.facts.customers import DetailsRemoved
from server.record.opening import file_of
from server.settings import Settings
from server.upkeep.shelf import backups_on, made_at

_MOST_NAMED = 20
_SAME_MOMENT = timedelta(seconds=1)


def still_holds(settings: Settings, removal: DetailsRemoved, *, log_is_empty: bool) -> tuple[str, ...]:
    """Give a sentence for everything that may still hold them."""
    file = file_of(settings.database_url)
    at = datetime.fromtimestamp(removal.at / 1000, UTC)
    inside = _in_the_file(file, at, log_is_empty=log_is_empty) if file else _in_postgres()
    backups = _backups(settings, at) if file else ()
    return (*inside, *backups, *_typed(removal), _ELSEWHERE)


def _in_the_file(file: Path, at: datetime, *, log_is_empty: bool) -> Iterator[str]:
    if not log_is_empty:
        yield (
            "The database's write-ahead log: somebody was reading while they were removed, so it is emptied at the "
            "next entry after that, or when the service is stopped."
        )
    aside = sorted(each.name for each in file.parent.glob(f"{file.stem}-before-*") if _older(each, at))
    if aside:
        named = ", ".join(aside)
        yield f"Copies that `strawline migrate` put aside before: {named}. Nobody removes them but you."


def _older(file: Path, at: datetime) -> bool:
    return datetime.fromtimestamp(file.stat().st_mtime, UTC) < at + _SAME_MOMENT


def _in_postgres() -> tuple[str, ...]:
    return (
        (
            "The files of PostgreSQL: the row as it was stays in its table's file until somebody runs VACUUM FULL "
            "customer_details, and in that database's own log of changes as long as it is kept."
        ),
        "Backups made before by PostgreSQL's own means, as long as they are kept.",
    )


def _backups(settings: Settings, at: datetime) -> tuple[str, ...]:
    before = [each for each in backups_on(settings.shelf) if made_at(each) < at]
    if not before:
        return (f"No backup in {settings.shelf} was made before; one copied elsewhere is not reached from here.",)
    every_h, keep = settings.backup_every_hours, settings.backup_keep
    gone = f"about {at + timedelta(hours=every_h * keep):%-d %B %Y}" if every_h else "once so many were made by hand"
    said = (
        f"{len(before)} of the backups in {settings.shelf}, made before. The newest {keep} are kept, and the last one "
        f"a drill proved, so the last of these is let go {gone}, once a later one is proved. Until then whoever "
        "restores one has the details again and has to remove them again. A backup copied elsewhere is not reached."
    )
    return (said,)


def _typed(removal: DetailsRemoved) -> Iterator[str]:
    if typed := removal.also_typed_in:
        more = f" and {len(typed) - _MOST_NAMED} more" if len(typed) > _MOST_NAMED else ""
        yield (
            "Sealed lines in which somebody typed the name or the address in words; they stay, and a customer's "
            f"version of a dossier leaves their words out: {', '.join(typed[:_MOST_NAMED])}{more}."
        )


_ELSEWHERE = (
    "What is not looked at from here: the shop folder they were loaded from, pictures and PDFs that came with a claim, "
    "and whatever left the house as a letter, dossier or list. Take the name out of the shop folder yourself; loaded "
    "again it is left out, and said."
)
