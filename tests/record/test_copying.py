"""A record is copied whole while it is written, and a copy is known as one."""

import sqlite3
import threading
from contextlib import closing
from pathlib import Path

import pytest

from server.record.book_of_lines import Record
from server.record.copying import copy_record, how_far
from server.record.record_check import check_record
from server.record.troubles import CopyNotContinued
from tests.record.fixtures import append, url_of
from tests.record.sample_lines import new_entry


def test_a_copy_is_whole_while_lines_are_written(record: Record, file: Path, tmp_path: Path):
    """Copied while another thread appends, the copy holds every line answered before it began, and everything holds."""
    append(record, *(new_entry(number) for number in range(200)))
    going_on = threading.Event()

    def go_on() -> None:
        number = 200
        while not going_on.is_set():
            append(record, new_entry(number))
            number += 1

    writing = threading.Thread(target=go_on)
    writing.start()
    copies = [tmp_path / f"copy{number}.sqlite3" for number in range(5)]
    lines = []
    for copy in copies:
        before = record.condition().lines
        copy_record(file, copy)
        lines.append(how_far(copy).lines - before)
    going_on.set()
    writing.join()
    assert all(more >= 0 for more in lines)
    assert [check_record(url_of(copy), file.parent).odd for copy in copies] == [()] * 5


def test_it_says_how_far_a_record_reaches(record: Record, file: Path):
    """Lines, root and newest checkpoint are those the record itself signs."""
    append(record, new_entry(1), new_entry(2))
    signed = record.checkpoint().result()
    assert how_far(file) == (3, signed.checkpoint.root, signed)
    append(record, new_entry(3))
    further = how_far(file)
    assert (further.lines, further.checkpoint) == (4, signed)
    assert further.root != signed.checkpoint.root


def test_a_copy_is_one_file_and_takes_nothing(record: Record, file: Path, tmp_path: Path):
    """The copy needs no second file, can be read, and refuses every line; the record it was made from takes more."""
    append(record, new_entry(1))
    copy_record(file, tmp_path / "copy.sqlite3")
    assert [each.name for each in tmp_path.glob("copy*")] == ["copy.sqlite3"]
    copied = Record.open(url_of(tmp_path / "copy.sqlite3"))
    with copied.reads() as reads:
        assert len(list(reads.every_entry())) == 1
    with pytest.raises(CopyNotContinued, match="strawline continue"):
        append(copied, new_entry(2))
    with pytest.raises(CopyNotContinued):
        copied.checkpoint().result()
    copied.close()
    assert how_far(tmp_path / "copy.sqlite3").lines == 1
    assert append(record, new_entry(2))[0].position == 2


def test_a_copy_that_fails_leaves_nothing(record: Record, file: Path, tmp_path: Path):
    """A record that is not there, and a place that cannot be written, leave no file behind."""
    with pytest.raises(sqlite3.Error):
        copy_record(tmp_path / "none.sqlite3", tmp_path / "copy.sqlite3")
    with pytest.raises(sqlite3.Error):
        copy_record(file, tmp_path / "nowhere" / "copy.sqlite3")
    assert list(tmp_path.glob("copy*")) == []


def test_the_mark_stands_in_the_file_itself(record: Record, file: Path, tmp_path: Path):
    """Moved or renamed a copy stays one; the record's own file bears no mark."""
    append(record, new_entry(1))
    copy_record(file, tmp_path / "copy.sqlite3")
    (tmp_path / "copy.sqlite3").rename(tmp_path / "renamed.sqlite3")
    marks = []
    for each in (tmp_path / "renamed.sqlite3", file):
        with closing(sqlite3.connect(each)) as connection:
            marks += connection.execute("PRAGMA user_version").fetchone()
    assert marks[0] != 0
    assert marks[1] == 0
