"""Judging everything again tells what changed by question, and keeps the other book's findings as they were."""

from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest

from server.judgement.book import Book
from server.record.book_of_lines import Record, now_ms
from server.record.record_check import check_record
from server.record.written import Written
from server.work.rejudge import Changed, rejudge
from server.work.telling import told_line
from tests.record.tampering import tamper
from tests.story.log import DAY, Tablet
from tests.work.small_shop import open_shop
from tests.work.test_judging import a_pass, send, words


@pytest.fixture
def record(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    yield made
    made.close()


def test_what_changed_is_told_by_question(record: Record):
    """A finding that is new, and later one that says something else, each count under their question; then nothing."""
    tablet = Tablet("SLATE")
    send(record, a_pass(tablet, "1:00", oxygen="34"))
    assert Changed("purge-o2", 1, 0, 0) in rejudge(record).changed

    send(record, a_pass(tablet, "1:10", oxygen="50"))
    assert Changed("purge-o2", 0, 0, 1) in rejudge(record).changed
    assert rejudge(record).changed == ()


def test_todays_limits_find_more_in_old_work_and_leave_the_old_verdicts(record: Record):
    """Old work held against a tighter revision of today is outside there, and stays within by the book of then."""
    told = (Path(__file__).parents[1] / "story/shop/procedures/tube/rev_a.toml").read_text()
    tomorrow = DAY.date() + timedelta(days=1)
    tighter = told.replace('revision = "A"', 'revision = "B"')
    tighter = tighter.replace('high = 20, unit = "ppm"', 'high = 5, unit = "ppm"')
    tighter = tighter.replace("valid_from = 2030-01-15", f"valid_from = {tomorrow}").replace("2030", str(DAY.year - 1))
    send(record, a_pass(Tablet("SLATE"), "1:00", oxygen="12"))
    rejudge(record)
    released = {"kind": "procedure", "id": "tube/rev_b", "file": "rev_b.toml", "sha256": "00", "text": tighter}
    record.write(lambda _: Written(answer=lambda _: None, lines=[told_line(released, now_ms())])).result()

    today = Book("today", on=tomorrow + timedelta(days=1))
    assert Changed("purge-o2", 1, 0, 0) in rejudge(record, book=today).changed

    assert rejudge(record).changed == ()
    assert words(record, "purge-o2") == {}
    with record.reads() as reads:
        found = {each.verdict.question: each.verdict for each in reads.findings(book="today")}
    assert (found["purge-o2"].value, found["purge-o2"].high) == (12, 5)


def test_a_day_is_part_of_the_book(record: Record):
    """Two days are two books: what one finds does not stand under the other."""
    send(record, a_pass(Tablet("SLATE"), "1:00", oxygen="34"))
    rejudge(record, book=Book("one day", on=date(DAY.year, 1, 1)))

    assert words(record, "purge-o2") == {}


ALTERED = {
    "a verdict's words": "UPDATE verdict SET packed = replace(packed, ',0]', ',4]') WHERE packed LIKE '%purge-o2%'",
    "a finding's text": "UPDATE finding SET verdict = replace(verdict, 'outside', 'marginal')",
    "a finding's columns": "UPDATE finding SET severity = 'note', word = 'marginal'",
    "a finding's frame": "UPDATE finding SET frame = NULL WHERE key LIKE '%purge-o2'",
    "a finding taken back": "UPDATE finding SET gone = 1 WHERE key LIKE '%purge-o2'",
    "a finding taken away": "DELETE FROM finding WHERE key LIKE '%purge-o2'",
}


@pytest.mark.parametrize("how", ALTERED)
def test_what_was_altered_in_the_file_is_named_and_judged_again(tmp_path: Path, how: str):
    """A verdict or finding altered beside its digest is named by the recheck; judging again puts it right, appended."""
    record = open_shop(tmp_path)
    send(record, a_pass(Tablet("SLATE"), "1:00", oxygen="34"))
    rejudge(record)
    before, url = standing(record), record.url
    record.close()
    assert check_record(url, tmp_path).odd == ()
    tamper(tmp_path / "record.sqlite3", ALTERED[how])
    assert any("rejudge" in each for each in check_record(url, tmp_path).odd)
    record = Record.open(url, tmp_path)
    assert standing(record) != before
    rejudge(record)
    after = standing(record)
    record.close()
    assert after == before
    assert check_record(url, tmp_path).odd == ()


def standing(record: Record) -> object:
    """What a reader of the frame gets: its findings by their columns, and every verdict about it."""
    with record.reads() as reads:
        found = {each.key: each.digest for each in reads.findings(frame="SW-1")}
        short = {key: str(each[1:]) for group in reads.findings_short().values() for key, each in group.items()}
        return found, sorted(short.items()), reads.verdicts_of_frame("SW-1")
