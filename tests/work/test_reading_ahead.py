"""A long folder is read on by another process: the same lines in the same order, whatever becomes of that process."""

import os
from collections.abc import Iterator
from multiprocessing import Pipe, active_children
from pathlib import Path
from pickle import dumps
from queue import Queue

import pytest

from server.work import reading_ahead as ahead
from server.work.folder_line import FolderLine
from server.work.reading_ahead import reading_ahead
from server.work.shop_folder import Told, came_later, read_shop_folder
from tests.work.moved_in import moved_in

NOW = 1_790_000_000_000
_PATIENCE_S = 60


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder as it should be."""
    return moved_in(tmp_path / "shop")


@pytest.fixture
def read_here(monkeypatch: pytest.MonkeyPatch) -> list[Told]:
    """Two cores, any folder worth it, a line at a time, the other process waited for; what is read here is gathered."""
    here: list[Told] = []

    def gathered(folder: Path) -> Iterator[Told]:
        for item in came_later(folder):
            here.append(item)
            yield item

    monkeypatch.setattr(ahead, "came_later", gathered)
    monkeypatch.setattr(ahead, "cores", lambda: 2)
    monkeypatch.setattr(ahead, "_WORTH_IT", 1)
    monkeypatch.setattr(ahead, "_HANDED_OVER_AT_ONCE", 1)
    monkeypatch.setattr(ahead, "_WHILE_IT_CATCHES_UP", 1)
    monkeypatch.setattr(ahead, "_has_started", lambda other: other.poll(_PATIENCE_S))
    return here


def names(items: list[ahead.ReadTold]) -> list[str]:
    return [item.noun.id if isinstance(item, FolderLine) else item[1].line.id for item in items]


def test_the_other_process_reads_on(folder: Path, read_here: list[Told]) -> None:
    """What another process read is what this one would have, from where this one stopped; afterwards it is gone."""
    plain = list(ahead._read(folder, NOW))
    read_here.clear()
    with reading_ahead(read_shop_folder(folder), NOW) as came:
        assert list(came) == plain
    assert names(plain) == ["slate:b:1", "r", "slate:b:3", "slate:b:4"]
    assert len(read_here) == 1
    assert active_children() == []


def test_until_the_other_has_started_it_is_read_here(
    folder: Path, read_here: list[Told], monkeypatch: pytest.MonkeyPatch
) -> None:
    """However much was read here until the other process had started, it goes on behind that; nothing comes twice."""
    plain = list(ahead._read(folder, NOW))
    read_here.clear()
    started = iter([False] * 2)
    monkeypatch.setattr(ahead, "_has_started", lambda other: next(started, True) and other.poll(_PATIENCE_S))
    with reading_ahead(read_shop_folder(folder), NOW) as came:
        assert list(came) == plain
    assert len(read_here) == 3


@pytest.mark.parametrize("lots", [4, 5])
def test_what_is_read_before_the_other_has_started_is_not_waited_for(
    folder: Path, read_here: list[Told], monkeypatch: pytest.MonkeyPatch, lots: int
) -> None:
    """A folder that was read here to its end needs nothing of the other, whether that one had just started or not."""
    plain = list(ahead._read(folder, NOW))
    here, there = Pipe()
    there.send("started")
    there.send([])
    started = iter([False] * lots)
    monkeypatch.setattr(ahead, "_has_started", lambda _: next(started, True))
    assert list(ahead._by_both(here, folder, NOW)) == plain
    never_asked = here.poll()
    assert never_asked is (lots == 5)


def test_a_process_that_ends_early_costs_time_only(folder: Path, read_here: list[Told]) -> None:
    """Where the other process is ended from outside, the rest is read here, and no line comes twice or is left out."""
    with reading_ahead(read_shop_folder(folder), NOW) as came:
        (process,) = active_children()
        process.kill()
        process.join()
        assert names(list(came)) == ["slate:b:1", "r", "slate:b:3", "slate:b:4"]
    assert len(read_here) > 1


def test_what_was_handed_over_is_not_read_again(folder: Path, read_here: list[Told]) -> None:
    """Where the other process ended between two lots, what it handed over before stands, and the rest follows."""
    plain = list(ahead._read(folder, NOW))
    receiver, sender = Pipe(duplex=False)
    sender.send(plain[1:3])
    sender.close()
    assert list(ahead._handed_over(receiver, folder, NOW, 1)) == plain[1:]


@pytest.mark.parametrize("spoilt", [False, True])
def test_it_reads_on_while_nothing_is_taken(
    folder: Path, read_here: list[Told], spoilt: bool
) -> None:
    """Lots wait for whoever takes them; the end is told after the last one, and not where a line cannot be read."""
    plain, lots = list(ahead._read(folder, NOW)), Queue[bytes]()
    if spoilt:
        with (folder / "deliveries.jsonl").open("a", encoding="utf-8") as deliveries:
            deliveries.write("no line\n")
    ahead._read_into(lots, folder, NOW, 1)
    waiting = [lots.get_nowait() for _ in range(lots.qsize())]
    assert waiting == [*(dumps([each]) for each in plain[1:]), *([] if spoilt else [dumps([])]), b""]


def test_a_short_folder_needs_no_other_process(
    folder: Path, read_here: list[Told], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A short folder, and any folder on a single core, is read where it is loaded."""
    for name, value in (("_WORTH_IT", 1000), ("cores", lambda: 1)):
        with monkeypatch.context() as patched:
            patched.setattr(ahead, name, value)
            with reading_ahead(read_shop_folder(folder), NOW) as came:
                assert active_children() == []
                assert len(list(came)) == 4


def test_a_load_that_fails_ends_the_other_process(folder: Path, read_here: list[Told]) -> None:
    """Whatever ends the block, no process is left behind."""
    with pytest.raises(KeyboardInterrupt), reading_ahead(read_shop_folder(folder), NOW):
        raise KeyboardInterrupt
    assert active_children() == []


def test_a_system_that_tells_no_allowance_is_asked_for_all_its_cores(monkeypatch: pytest.MonkeyPatch):
    """macOS does not say which cores a process may use; it is taken to be all of them."""
    monkeypatch.setattr(os, "cpu_count", lambda: 3)
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0, 1}, raising=False)
    assert ahead.cores() == 2
    monkeypatch.delattr(os, "sched_getaffinity")
    assert ahead.cores() == 3
