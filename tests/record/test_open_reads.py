"""A read that holds the write-ahead log for too long is ended once the log has grown too long, and only then."""

import logging
import threading
import time
from pathlib import Path

import pytest

from server.record import open_reads, write_ahead
from server.record.book_of_lines import Record
from server.record.troubles import ReadEnded
from tests.record.fixtures import append
from tests.record.sample_lines import new_entry

_PATIENCE_S = 120.0


@pytest.fixture(autouse=True)
def _short(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(write_ahead, "MOVE_EVERY_BYTES", 100_000)
    monkeypatch.setattr(write_ahead, "ALARM_AT_BYTES", 400_000)
    monkeypatch.setattr(open_reads.OpenReads.end_the_stuck, "__defaults__", (0.2,))


def fill(record: Record, first: int) -> None:
    for number in range(first, first + 40):
        append(record, new_entry(number, note="x" * 20_000))
    append(record)


def test_a_stuck_read_is_ended_and_the_log_is_free(record: Record, caplog: pytest.LogCaptureFixture):
    """Idle between two questions it is ended, its next question says so, and the log is emptied at once."""
    append(record, new_entry(0))
    with record.reads() as reads:
        reads.last_position()
        time.sleep(0.3)
        with caplog.at_level(logging.WARNING):
            fill(record, 1)
        assert record.condition().write_ahead_bytes < 500_000
        with pytest.raises(ReadEnded, match="took too long"):
            reads.sendings_of("x")
    assert any("were ended" in each.message for each in caplog.records)
    with record.reads() as reads:
        assert len(list(reads.every_entry())) == 41


def test_a_read_in_the_middle_of_its_rows_is_ended(record: Record):
    """Half way through its rows, it gets no row of another state: the next one is refused."""
    fill(record, 100)

    def half_read() -> None:
        with record.reads() as reads:
            rows = reads._connection.exec_driver_sql("SELECT position FROM line").yield_per(1)
            next(iter(rows))
            time.sleep(0.3)
            fill(record, 1)
            list(rows)

    with pytest.raises(ReadEnded):
        half_read()


def test_a_question_that_computes_without_end_is_ended(record: Record):
    """While it is still computing it is ended as well, from outside."""
    endless = "WITH RECURSIVE n(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM n) SELECT max(x) FROM n"
    trouble: list[Exception] = []

    def ask() -> None:
        try:
            with record.reads() as reads:
                reads.last_position()
                reads._connection.exec_driver_sql(endless).all()
        except ReadEnded as ended:
            trouble.append(ended)

    asking = threading.Thread(target=ask, daemon=True)
    asking.start()
    until = time.monotonic() + _PATIENCE_S
    while record.condition().oldest_read_s < 0.3 and time.monotonic() < until:
        time.sleep(0.02)
    fill(record, 1)
    fill(record, 100)
    asking.join(_PATIENCE_S)
    assert len(trouble) == 1


def test_a_patient_read_and_a_short_log_are_left_alone(record: Record):
    """Control: judging reads for as long as it takes, and without an alarm nobody is ended."""
    with record.reads(patient=True) as reads:
        assert reads.last_position() == 0
        time.sleep(0.3)
        fill(record, 1)
        assert record.condition().write_ahead_bytes > 600_000
        assert list(reads.every_entry()) == []
    append(record, new_entry(200))
    with record.reads() as reads:
        before = len(list(reads.every_entry()))
        time.sleep(0.3)
        append(record, new_entry(201))
        assert len(list(reads.every_entry())) == before


def test_the_age_of_the_oldest_read_is_told(record: Record, file: Path):
    """While a read is open its age is part of the record's condition; afterwards it is none."""
    with record.reads():
        time.sleep(0.2)
        assert record.condition().oldest_read_s > 0.15
    assert record.condition().oldest_read_s == 0
