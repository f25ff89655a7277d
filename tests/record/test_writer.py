"""One writer: what waits is kept together, each verb for itself, and nobody is answered before it is kept."""

import sqlite3
import threading
from collections.abc import Iterator
from concurrent.futures import Future
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

import pytest

from server.record import sealing
from server.record.book_of_lines import Record
from server.record.lines import Placed
from server.record.reads import Reads
from server.record.record_check import check_record
from server.record.schema_change import change_schema
from server.record.sealing import AFTER_LINES
from server.record.troubles import NoRoom, RecordClosed, RecordUnfit, WriterTaken
from server.record.written import Written
from tests.record.fixtures import append, url_of
from tests.record.sample_lines import new_entry, new_register, person
from tests.record.tampering import tamper


@contextmanager
def writer_held(record: Record) -> Iterator[None]:
    """Keep the writer busy, so that everything submitted meanwhile waits together."""
    started, go_on = threading.Event(), threading.Event()

    def hold(_: Reads) -> Written[None]:
        started.set()
        go_on.wait(10)
        return Written(lambda _: None)

    held = record.write(hold)
    started.wait(10)
    yield
    go_on.set()
    held.result(10)


def append_later(record: Record, number: int) -> "Future[tuple[Placed, ...]]":
    return record.write(lambda _: Written(tuple, (new_entry(number),)))


def counted(record: Record, statement: str) -> list[str]:
    from sqlalchemy import event

    seen: list[str] = []

    def note(_connection: Any, _cursor: Any, said: str, *_rest: Any) -> None:
        if said.startswith(statement):
            seen.append(said)

    event.listen(record._engines.writing, "before_cursor_execute", note)
    return seen


def test_positions_follow_without_a_gap(either: Record):
    """Lines stand one behind the other in the order in which their verbs came."""
    placed = [append_later(either, number) for number in range(20)]
    assert [each.result()[0].position for each in placed] == list(range(1, 21))


def test_what_waits_is_committed_at_once(record: Record):
    """Twenty verbs that wait are kept by one transaction."""
    with writer_held(record):
        begins = counted(record, "BEGIN IMMEDIATE")
        waiting = [append_later(record, number) for number in range(20)]
    assert [len(each.result()) for each in waiting] == [1] * 20
    assert len(begins) == 1


def test_one_after_the_other_each_has_its_own(record: Record):
    """Control: verbs that do not wait together take a transaction each."""
    begins = counted(record, "BEGIN IMMEDIATE")
    for number in range(3):
        append_later(record, number).result()
    assert len(begins) == 3


def test_an_answer_means_kept(record: Record, file: Path):
    """When a verb is answered, its lines are there for anybody who opens the file."""
    append(record, new_entry(1))
    with closing(sqlite3.connect(file)) as other:
        assert other.execute("SELECT id FROM line").fetchall() == [("TAB-1:b1:1",)]


def test_nobody_is_answered_before_the_commit(record: Record, file: Path):
    """While the transaction is open, a verb that has run already is not answered, and its line is not there."""
    first: list[Future[Any]] = []
    seen: list[Any] = []

    def look(_: Reads) -> Written[None]:
        with closing(sqlite3.connect(file)) as other:
            seen.append((first[0].done(), other.execute("SELECT count(*) FROM line").fetchone()[0]))
        return Written(lambda _: None)

    with writer_held(record):
        first.append(append_later(record, 1))
        second = record.write(look)
    second.result()
    assert seen == [(False, 0)]
    assert first[0].result()[0].position == 1


def fails_after_writing(_: Reads) -> Written[None]:
    def change(connection: Any) -> None:
        connection.exec_driver_sql("INSERT INTO credential VALUES ('P9', 'pin', 'hash', 0, FALSE)")
        raise ValueError("no")

    return Written(lambda _: None, (new_entry(99),), (change,))


def test_a_failing_verb_takes_back_only_its_own(either: Record):
    """Of three verbs kept together the middle one fails: it alone is told, and nothing of it stays."""
    with writer_held(either):
        before, failing = append_later(either, 1), either.write(fails_after_writing)
        after = append_later(either, 2)
    with pytest.raises(ValueError, match="no"):
        failing.result()
    assert [before.result()[0].position, after.result()[0].position] == [1, 2]
    with either.reads() as reads:
        assert [each.entry.id for each in reads.every_entry()] == ["TAB-1:b1:1", "TAB-1:b1:2"]
        assert reads.credentials("P9") == {}


def test_a_verb_sees_what_waited_before_it(either: Record):
    """A verb asks the state that the verbs before it leave, though nothing of it is committed yet."""
    with writer_held(either):
        append_told = either.write(lambda _: Written(tuple, (new_register(person()),)))
        asking = either.write(lambda reads: _answering((reads.last_position(), list(reads.registers().people))))
    assert asking.result() == (1, ["P1"])
    append_told.result()


def _answering(answer: Any) -> Written[Any]:
    return Written(lambda _: answer)


def test_what_was_taken_back_is_not_remembered(either: Record):
    """Registers that a verb saw are forgotten when the disk then has no room for the whole transaction."""

    def find_the_disk_full(_: Any) -> None:
        raise NoRoom

    with writer_held(either):
        told = either.write(lambda _: Written(tuple, (new_register(person()), new_entry(1))))
        asking = either.write(lambda reads: _answering((reads.registers().people, reads.clock_pairs())))
        failing = either.write(lambda _: Written(lambda _: None, changes=(find_the_disk_full,)))
    for each in (told, asking, failing):
        with pytest.raises(NoRoom):
            each.result()
    append(either, new_entry(2), new_entry(3))
    with either.reads() as reads:
        assert reads.registers().people == {}
        assert [pair.seq for pair in reads.clock_pairs()] == [2, 3]


def test_the_chains_go_on_after_a_restart(url: str, tmp_path: Path):
    """A record opened again goes on where it stood, and everything in it still holds."""
    for number in range(3):
        record = Record.open(url, tmp_path)
        append(record, new_entry(number))
        record.close()
    found = check_record(url, tmp_path)
    assert (found.lines, found.checkpoints, found.odd) == (6, 3, ())


def test_two_programs_on_one_file_do_not_break_the_chains(file: Path):
    """On SQLite a second program may write in between; each writer notices and goes on from what is there."""
    one, other = Record.open(url_of(file)), Record.open(url_of(file))
    for number in range(6):
        append((one, other)[number % 2], new_entry(number))
    one.close()
    other.close()
    assert check_record(url_of(file), file.parent).odd == ()


def test_a_second_writer_on_postgresql_is_turned_away(request: pytest.FixtureRequest, tmp_path: Path):
    """On PostgreSQL the second program is told that there is one writer only, and may come when the first has gone."""
    import psycopg

    server = request.getfixturevalue("postgres")
    with psycopg.connect(server.get_uri(), autocommit=True) as connection:
        connection.execute("CREATE DATABASE one_writer")
    url = server.get_uri("one_writer").replace("postgresql://", "postgresql+psycopg://")
    record = Record.open(url, tmp_path)
    with pytest.raises(WriterTaken, match="one writer only"):
        Record.open(url, tmp_path)
    with pytest.raises(WriterTaken, match="one writer only"):
        change_schema(url)
    record.close()
    assert "every guard in place" in change_schema(url)
    Record.open(url, tmp_path).close()


def test_a_closed_record_takes_nothing(file: Path):
    """After closing, a verb is refused with a word instead of waiting for ever."""
    record = Record.open(url_of(file))
    record.close()
    with pytest.raises(RecordClosed, match="it was closed"):
        append(record, new_entry(1))


def test_a_record_with_a_missing_line_takes_no_more(file: Path):
    """Where a line was taken out of the file, nothing is written on top of it; the record says so and closes."""
    record = Record.open(url_of(file))
    append(record, *(new_entry(number) for number in range(3)))
    record._writer._sealer = None
    record.close()
    record = Record.open(url_of(file))
    tamper(file, "DELETE FROM line WHERE position = 2")
    with pytest.raises(RecordClosed, match="up to position 3 some are missing"):
        append(record, new_entry(9))
    record.close()


def test_a_checkpoint_is_signed_after_many_lines(record: Record):
    """After a thousand lines one is signed without anybody asking."""
    append(record, *(new_entry(number) for number in range(AFTER_LINES - 1)))
    assert record.condition().sealed_lines == 0
    append(record, new_entry(AFTER_LINES))
    append(record)
    assert record.condition().sealed_lines == AFTER_LINES + 1


def test_a_checkpoint_that_fails_leaves_nothing_behind(file: Path, monkeypatch: pytest.MonkeyPatch):
    """When signing fails half-way the writer forgets what it had drafted, even if another program wrote meanwhile."""
    one, other = Record.open(url_of(file)), Record.open(url_of(file))
    append(one, new_entry(1))
    with monkeypatch.context() as broken:
        broken.setattr(sealing, "sign_checkpoint", lambda *_: 1 / 0)
        with pytest.raises(ZeroDivisionError):
            one.checkpoint().result()
    append(other, new_entry(2))
    append(one, new_entry(3))
    one.close()
    other.close()
    found = check_record(url_of(file), file.parent)
    assert (found.lines, found.checkpoints, found.odd) == (4, 1, ())


def test_a_checkpoint_is_given_again_where_nothing_came(record: Record):
    """Asked twice, the same checkpoint is given and no line is added."""
    append(record, new_entry(1))
    first = record.checkpoint().result()
    assert record.checkpoint().result() == first
    assert first.checkpoint.size == record.condition().lines == 2


def test_without_its_key_a_record_still_takes_lines(file: Path):
    """A lost key keeps nobody from logging; only a checkpoint is refused, and no second key is made."""
    record = Record.open(url_of(file))
    append(record, new_entry(1))
    record.close()
    (file.parent / "record.key").unlink()
    record = Record.open(url_of(file))
    append(record, new_entry(2))
    with pytest.raises(RecordUnfit, match=r"put record\.key back"):
        record.checkpoint().result()
    record.close()
    assert not (file.parent / "record.key").exists()
