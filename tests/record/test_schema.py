"""The tables a migration makes are the tables the program speaks of, and no other schema is opened."""

from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import Column, Integer, MetaData, Table

from server.record.book_of_lines import Record
from server.record.engines import migrating_engine
from server.record.guards import missing_guards
from server.record.schema import REVISION, bring_up_to_date, revision_of
from server.record.tables.columns import LINE_TABLE
from server.record.troubles import RecordUnfit
from tests.record.fixtures import url_of


def differences(url: str, spoken_of: MetaData) -> list[object]:
    engine = migrating_engine(url)
    with engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        found = list(compare_metadata(context, spoken_of))
    engine.dispose()
    return found


def test_the_steps_make_the_tables_the_program_speaks_of(url: str):
    """On both engines nothing differs between the migrated database and the rows' own description."""
    bring_up_to_date(url)
    assert differences(url, LINE_TABLE.metadata) == []


def test_a_table_without_its_step_is_reported(url: str):
    """Control: a table that no step makes is a difference."""
    bring_up_to_date(url)
    more = MetaData()
    for table in LINE_TABLE.metadata.tables.values():
        table.to_metadata(more)
    Table("forgotten", more, Column("number", Integer, primary_key=True))
    assert len(differences(url, more)) == 1


def test_another_schema_is_not_opened(url: str, tmp_path: Path):
    """A database at another step is refused, naming both and what to do."""
    Record.open(url, tmp_path).close()
    engine = migrating_engine(url)
    with engine.begin() as connection:
        assert revision_of(connection) == REVISION
        connection.exec_driver_sql("UPDATE alembic_version SET version_num = 'later'")
    engine.dispose()
    with pytest.raises(RecordUnfit, match=f"'later', this program speaks '{REVISION}'.*migrate"):
        Record.open(url, tmp_path)


def test_bringing_up_to_date_puts_lost_guards_back(url: str):
    """A guard that was dropped is there again after the steps were run."""
    bring_up_to_date(url)
    engine = migrating_engine(url)
    with engine.begin() as connection:
        sqlite = connection.dialect.name == "sqlite"
        connection.exec_driver_sql("DROP TRIGGER line_no_update" if sqlite else "DROP TRIGGER line_no_change ON line")
        assert len(missing_guards(connection)) == 1
    bring_up_to_date(url)
    with engine.connect() as connection:
        assert missing_guards(connection) == []
    engine.dispose()


def test_a_step_that_fails_leaves_nothing_behind(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """On SQLite a migration that breaks half-way is taken back as a whole."""
    from server.record import guards

    url = f"sqlite:///{tmp_path / 'record.sqlite3'}"
    monkeypatch.setitem(guards.APPEND_ONLY, "no_such_table", ("x = NEW.x",))
    with pytest.raises(Exception, match="no_such_table"):
        bring_up_to_date(url)
    engine = migrating_engine(url)
    with engine.connect() as connection:
        assert revision_of(connection) is None
    engine.dispose()


def test_a_damaged_file_is_told_in_words(file: Path):
    """A file whose pages were written over is refused with what to do, and nothing of it is changed."""
    content = file.read_bytes()
    file.write_bytes(content[:100] + b"\xa5" * (len(content) - 100))
    with pytest.raises(RecordUnfit, match=r"cannot be read: .*; run check-record"):
        Record.open(url_of(file))
