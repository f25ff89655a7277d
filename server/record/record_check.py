"""Opens a record for checking only: no writer, no start-up check that could keep a damaged one from being looked at."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import Connection
from sqlalchemy.exc import SQLAlchemyError

from server.evidence.note_keys import NoteKey, read_key
from server.evidence.refusals import NoteRefused
from server.record.engines import make_engines
from server.record.named_files import NamedFiles, named_files
from server.record.opening import file_of
from server.record.rechecking import Rechecked, recheck_record
from server.record.saying import Say, unsaid
from server.record.signing_key import known_keys
from server.record.troubles import RecordUnfit


class CannotCheck(Exception):
    """There is nothing that could be checked, or nothing to check it with."""


def check_record(
    url: str, folder: Path, outside_notes: Sequence[bytes] = (), key: str | None = None, say: Say = unsaid
) -> Rechecked:
    """Recheck the record at a URL with the key given, or with that of its data folder."""
    with _looking(url) as connection:
        return recheck_record(connection, _keys(folder, key), outside_notes, say)


def check_files(url: str, folder: Path, say: Say = unsaid) -> NamedFiles:
    """Check the files that the lines of the record at a URL name, in the data folder beside it."""
    with _looking(url) as connection:
        return named_files(connection, folder, say)


@contextmanager
def _looking(url: str) -> Iterator[Connection]:
    file = file_of(url)
    if file and not file.exists():
        raise CannotCheck(f"there is no record at {file}; name the data folder it lies in")
    engine = make_engines(url).reading
    try:
        with engine.connect() as connection, connection.begin():
            yield connection
    except SQLAlchemyError as broken:
        raise CannotCheck(f"the database cannot be read: {broken}") from broken
    finally:
        engine.dispose()


def _keys(folder: Path, written: str | None) -> tuple[NoteKey, ...]:
    try:
        return (read_key(written),) if written else known_keys(folder)
    except (NoteRefused, RecordUnfit) as slip:
        raise CannotCheck(str(slip)) from slip
