"""The command that changes a record's schema: a copy first, the guards afterwards, and nothing lost."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from server.commands._telling import Telling
from server.commands.migrate import run
from server.record.book_of_lines import Record
from server.record.record_check import check_record
from server.record.troubles import RecordUnfit
from tests.record.fixtures import append, url_of
from tests.record.sample_lines import new_entry
from tests.record.tampering import tamper


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """A data folder with a record of two entries."""
    record = Record.open(url_of(tmp_path / "record.sqlite3"))
    append(record, new_entry(1), new_entry(2))
    record.close()
    return tmp_path


def test_lost_guards_are_put_back(data: Path, capsys: pytest.CaptureFixture[str]):
    """A record that was refused for a missing guard opens again after the command, with everything in it."""
    tamper(data / "record.sqlite3", "UPDATE line SET device = device", put_guards_back=False)
    with pytest.raises(RecordUnfit, match="migrate"):
        Record.open(url_of(data / "record.sqlite3"))
    assert run(["--data", str(data)]) == 0
    assert "with every guard in place" in capsys.readouterr().out
    Record.open(url_of(data / "record.sqlite3")).close()
    assert check_record(url_of(data / "record.sqlite3"), data).odd == ()


def test_a_copy_is_put_aside_each_time(data: Path):
    """Before anything is changed the whole record is copied, and an earlier copy is left as it is."""
    for _ in range(2):
        tamper(data / "record.sqlite3", "UPDATE line SET device = device", put_guards_back=False)
        assert run(["--data", str(data)]) == 0
    copies = sorted(data.glob("record-before-*.sqlite3"))
    assert len(copies) == 2
    with closing(sqlite3.connect(copies[0])) as copy:
        assert copy.execute("SELECT count(*) FROM line").fetchone() == (3,)


def test_where_nothing_is_missing_nothing_is_copied(data: Path, capsys: pytest.CaptureFixture[str]):
    """A record that has its schema and its guards is left alone, and said to be: a copy is as large as the record."""
    assert run(["--data", str(data)]) == 0
    assert capsys.readouterr().out.startswith("nothing to change: the record stands at ")
    assert list(data.glob("record-before-*")) == []


def test_half_a_copy_is_taken_away(data: Path, monkeypatch: pytest.MonkeyPatch):
    """Stopped while the copy is made, no copy is left that could be taken for a whole one."""
    tamper(data / "record.sqlite3", "UPDATE line SET device = device", put_guards_back=False)
    monkeypatch.setattr(Telling, "__call__", stopped_by_hand)
    with pytest.raises(KeyboardInterrupt):
        run(["--data", str(data)])
    assert list(data.glob("record-before-*")) == []


def stopped_by_hand(*_: object) -> None:
    raise KeyboardInterrupt


def test_where_there_is_no_record_none_is_made(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    """Without a record the command gives 2 and leaves the folder empty."""
    assert run(["--data", str(tmp_path)]) == 2
    assert capsys.readouterr().out.startswith("not changed: there is no record")
    assert list(tmp_path.iterdir()) == []
