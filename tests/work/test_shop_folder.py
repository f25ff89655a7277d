"""A whole folder: read and checked before anything of it is told, and told in its order."""

from pathlib import Path

import pytest

from server.facts.delivery import Delivery
from server.work.shop_folder import FolderUnreadable, read_shop_folder
from tests.work.moved_in import entry, moved_in, release, sending, write


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder as it should be."""
    return moved_in(tmp_path / "shop")


def told(folder: Path) -> list[str]:
    items = read_shop_folder(folder).in_order()
    return [item.id if isinstance(item, Delivery) else f"{item.noun.kind} {item.noun.id}" for item in items]


def test_it_is_told_in_order(folder: Path) -> None:
    """What was known from the start comes first, then registers, papers and sendings as they were received."""
    start, later = told(folder)[:4], told(folder)[4:]
    assert start[:2] == ["shop shop", "person ada"]
    assert later == ["packet X-1", "piece X-1 P", "d-1", "permission r", "d-3", "d-4"]


def test_at_the_same_moment_papers_come_first(folder: Path) -> None:
    """A sending received when a paper was is told after it."""
    write(folder, "papers.jsonl", release(2))
    both = {**sending(9, entry(9)), "received_at": release(2)["received_at"]}
    write(folder, "deliveries.jsonl", both)
    assert told(folder)[-2:] == ["permission r", "d-9"]


def test_it_says_how_many_lines_there_are(folder: Path) -> None:
    """The number of lines is known beforehand, so that progress can be shown."""
    assert read_shop_folder(folder).lines == len(told(folder))


def test_everything_wrong_in_every_file_is_said_at_once(folder: Path) -> None:
    """Slips in a register, a design, a paper and a sending are told together, each with its file."""
    (folder / "people.toml").write_text('[[person]]\nid = "ada"\nname = "Ada Vane"\nroles = ["chef"]\n')
    (folder / "designs" / "cart.toml").write_text("name = ")
    write(folder, "papers.jsonl", {"received_at": "noon", "line": {"kind": "customer", "id": "c", "name": "A"}})
    write(folder, "deliveries.jsonl", {"id": "d-1"})
    with pytest.raises(FolderUnreadable) as refused:
        read_shop_folder(folder)
    files = [complaint.file for complaint in refused.value.complaints]
    assert {"people.toml", "cart.toml", "papers.jsonl", "deliveries.jsonl"} == set(files)
    assert "people.toml, line 4" in str(refused.value)


@pytest.mark.parametrize("missing", ["nowhere", "."])
def test_a_folder_without_its_sheet_is_no_shop_folder(tmp_path: Path, missing: str) -> None:
    """A folder that is not there, or has no shop.toml, is refused with how to make one."""
    with pytest.raises(FolderUnreadable, match="init FOLDER"):
        read_shop_folder(tmp_path / missing)
