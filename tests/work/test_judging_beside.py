"""A whole shop judged by two processes: the same rows in the same order, whatever becomes of the other process."""

import shutil
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import timedelta
from multiprocessing import active_children
from multiprocessing.context import SpawnProcess
from pathlib import Path
from pickle import loads
from queue import SimpleQueue
from types import SimpleNamespace
from typing import Any

import pytest

from server.judgement.book import THEN, Book
from server.record.book_of_lines import Record
from server.record.reading_only import reading_only
from server.work import judging
from server.work import judging_beside as beside
from server.work.asking_the_book import AskingTheBook, Piece
from server.work.judging import judge_everything
from tests.story.log import DAY, Tablet
from tests.work.small_shop import open_shop
from tests.work.test_judging import a_pass, more_frames, send

Rows = list[tuple[Any, ...]]
Said = list[Any]
PIECES: list[Piece] = [[str(number)] for number in range(9)] + [None]


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A record of six frames, with passes in and out of their limits, that nobody has judged."""
    folder = tmp_path_factory.mktemp("unjudged")
    with closing(open_shop(folder)) as made:
        tablet, frames = Tablet("SLATE"), ["SW-1", *more_frames(made, 5)]
        send(made, *(a_pass(tablet, "1:00", frame, oxygen) for frame in frames for oxygen in ("8", "34")))
    return folder / "record.sqlite3"


@pytest.fixture(autouse=True)
def _two_for_any_shop(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(beside, "cores", lambda: 2)
    monkeypatch.setattr(beside, "_WORTH_IT", 1)
    monkeypatch.setattr(judging, "_FRAMES_TO_A_PIECE", 1)
    monkeypatch.setattr(judging, "_FRAMES_AT_ONCE", 2)


def rows_of(file: Path, folder: Path) -> Rows:
    """Judge a copy of the record whole, and give what was written, number by number."""
    folder.mkdir()
    shutil.copy(file, folder / file.name)
    with closing(Record.open(f"sqlite:///{folder / file.name}", folder)) as record:
        judge_everything(record)
    with closing(sqlite3.connect(folder / file.name)) as kept:
        tables = ("verdict", "finding")
        return [row for table in tables for row in kept.execute(f"SELECT * FROM {table} ORDER BY number")]


@pytest.fixture
def alone(file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Rows:
    """What one process writes."""
    with monkeypatch.context() as patched:
        patched.setattr(beside, "cores", lambda: 1)
        return rows_of(file, tmp_path / "alone")


def with_other(monkeypatch: pytest.MonkeyPatch, first: Callable[[Any], object]) -> list[Piece]:
    """Do something before each piece that is judged here; gives these pieces."""
    here: list[Piece] = []

    def in_order(pieces: list[Piece], judge: beside.Judging, other: Any) -> Iterator[Said]:
        def noted(piece: Piece) -> Said:
            first(other)
            here.append(piece)
            return judge(piece)

        return beside.in_order(pieces, noted, other)

    monkeypatch.setattr(judging, "in_order", in_order)
    return here


def test_two_processes_write_what_one_writes(
    file: Path, tmp_path: Path, alone: Rows, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The rows are the same, number by number, while the other process judged some of the pieces; then it is gone."""
    here = with_other(monkeypatch, lambda other: other.poll(None))
    assert rows_of(file, tmp_path / "two") == alone
    assert len(alone) > 20
    assert 0 < len(here) < 7
    assert active_children() == []


def test_by_a_book_of_one_day_as_well(file: Path) -> None:
    """The other process holds the work against the same day, and says first that it is ready."""
    url, day, pieces = f"sqlite:///{file}", DAY.date() - timedelta(days=999), iter([["SW-1"], None])
    answers: SimpleQueue[bytes] = SimpleQueue()
    there: Any = SimpleNamespace(recv=lambda: next(pieces, None) if answers.qsize() < 3 else end())
    with reading_only(url) as reads:
        last = reads.last_position()
        by_day, then = (AskingTheBook(reads, last, book) for book in (Book("today", on=day), THEN))
        said = [by_day.about(["SW-1"]), by_day.about(None)]
        assert said[0] != then.about(["SW-1"])
    beside._answer(there, beside.ToJudge(url, last, "today", day), answers)
    assert [loads(answers.get_nowait()) for _ in range(3)] == [(), *said]
    assert answers.get_nowait() == b""


def end() -> None:
    """The way to the judging process is closed."""
    raise EOFError


def test_one_that_is_ended_costs_time_only(
    file: Path, tmp_path: Path, alone: Rows, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the other process is ended from outside, this one judges all of it."""

    def end(_: object) -> None:
        for process in active_children():
            process.kill()
            process.join()

    here = with_other(monkeypatch, end)
    assert rows_of(file, tmp_path / "two") == alone
    assert len(here) == 7


def test_one_that_cannot_be_started_is_done_without(
    file: Path, tmp_path: Path, alone: Rows, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the system has no room for another process, this one judges all of it."""

    def no_room(_: object) -> None:
        raise BlockingIOError(11, "Resource temporarily unavailable")

    monkeypatch.setattr(SpawnProcess, "start", no_room)
    assert rows_of(file, tmp_path / "two") == alone


@pytest.mark.parametrize(("name", "value"), [("_WORTH_IT", 100), ("_TOO_LONG", 1), ("cores", lambda: 1)])
def test_a_shop_that_is_not_worth_it_is_judged_here(monkeypatch: pytest.MonkeyPatch, name: str, value: object) -> None:
    """A few frames, a shop too long to be known twice, and any shop on a single core need no other process."""
    monkeypatch.setattr(beside, name, value)
    with beside.judging_beside("sqlite:///none.sqlite3", 2, THEN, 99) as other:
        assert other is None
        assert active_children() == []


class Other:
    """The way to another process, as far as a judging sees it; it answers at once, until it is gone."""

    def __init__(self, answers: int = 99) -> None:
        self.given: list[Piece] = []
        self._waiting: list[Any] = [()]
        self._answers = answers

    def send(self, piece: Piece) -> None:
        """Take a piece; the answer waits to be taken in."""
        self.given.append(piece)
        self._waiting.append(("there", piece))

    def poll(self) -> bool:
        """An end is seen as an answer is."""
        return bool(self._waiting) or not self._answers

    def recv(self) -> Any:
        """Answer, or be gone."""
        if not self._answers:
            raise EOFError
        self._answers -= 1
        return self._waiting.pop(0)


def shared_out(other: Any) -> list[Any]:
    judge: Any = lambda piece: [("here", piece)]  # noqa: E731
    return list(beside.in_order(PIECES, judge, other))


def test_answers_stand_in_the_order_of_the_pieces() -> None:
    """Whoever judged a piece, its answer comes in its place, and every piece has one answer."""
    other = Other()
    told = [said[0] if isinstance(said, list) else said for said in shared_out(other)]
    assert [piece for _, piece in told] == PIECES
    assert {who for who, _ in told} == {"here", "there"}


@pytest.mark.parametrize("answers", [0, 1, 2, 4])
def test_what_it_was_given_and_did_not_answer_is_judged_here(answers: int) -> None:
    """Wherever the other ends, what it was given comes back in its place."""
    other = Other(answers)
    told = [said[0] if isinstance(said, list) else said for said in shared_out(other)]
    assert [piece for _, piece in told] == PIECES
    assert [who for who, _ in told].count("there") == max(answers - 1, 0)


def test_one_that_never_answers_is_not_waited_for() -> None:
    """What hangs at the other is judged here in the end."""

    class Hanging(Other):
        """It says that it is ready, and no more."""

        def poll(self) -> bool:
            """Nothing comes but the first word."""
            return self._answers == 99

    other = Hanging()
    assert [said[0] for said in shared_out(other)] == [("here", piece) for piece in PIECES]
    assert other.given


def test_one_that_is_gone_is_given_nothing() -> None:
    """Where a piece cannot be handed over, it is judged here."""

    class Gone(Other):
        """It is gone between its first word and the first piece."""

        def send(self, piece: Piece) -> None:
            """Nobody takes it."""
            raise BrokenPipeError

    assert [said[0] for said in shared_out(Gone())] == [("here", piece) for piece in PIECES]
