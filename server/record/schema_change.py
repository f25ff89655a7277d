"""Changes the schema of a record nobody serves, with a copy put aside first, and looks at the guards afterwards."""

import sqlite3
from contextlib import closing
from pathlib import Path

from sqlalchemy.exc import SQLAlchemyError

from server.record.copying import copy_pages
from server.record.engines import make_engines
from server.record.guards import missing_guards
from server.record.opening import be_the_only_writer, file_of
from server.record.saying import Say, unsaid
from server.record.schema import REVISION, bring_up_to_date, look_at, revision_of


class CannotChange(Exception):
    """There is nothing to change, or the change failed and everything is as it was."""


def surely_a_record(url: str) -> Path | None:
    """Give the file of a record that is there, none where it lies in PostgreSQL."""
    file = file_of(url)
    if file and not file.exists():
        raise CannotChange(f"there is no record at {file}; serving or loading makes one")
    return file


def change_schema(url: str, say: Say = unsaid) -> str:
    """Run the missing steps and put every guard back; give what was done, in words, or that nothing had to be."""
    file = surely_a_record(url)
    engine = make_engines(url).reading
    try:
        with engine.connect() as connection, connection.begin():
            # On PostgreSQL it is held until the engine is disposed of, so nobody writes meanwhile.
            be_the_only_writer(connection)
        with engine.connect() as connection:
            before = revision_of(connection)
            if before == REVISION and not missing_guards(connection):
                return f"nothing to change: the record stands at {REVISION} already, with every guard in place"
        aside = f", a copy of it is {_copy(file, before, say)}" if file else ""
        bring_up_to_date(url)
        with engine.connect() as connection:
            look_at(connection)
    except SQLAlchemyError as broken:
        raise CannotChange(f"a step failed and was taken back: {broken}") from broken
    finally:
        engine.dispose()
    return f"the record stood at {before}, it now stands at {REVISION}, with every guard in place{aside}"


def _copy(file: Path, revision: str | None, say: Say) -> str:
    """Copy a SQLite file whole, its write-ahead log included; an earlier copy is never written over."""
    number, aside = 1, file.with_name(f"{file.stem}-before-{revision}.sqlite3")
    while aside.exists():
        number += 1
        aside = file.with_name(f"{file.stem}-before-{revision}-{number}.sqlite3")
    try:
        with closing(sqlite3.connect(file)) as source, closing(sqlite3.connect(aside)) as target:
            copy_pages(source, target, say)
    except BaseException:
        # Half a copy would later be taken for a whole one.
        aside.unlink(missing_ok=True)
        raise
    return aside.name
