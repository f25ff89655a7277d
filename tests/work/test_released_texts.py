"""Procedures and designs of a folder: released whole, with their digest."""

import hashlib
from pathlib import Path

import pytest

from server.sheets.complaint import SheetRefused
from server.work.folder_line import FolderLine
from server.work.released_texts import read_released
from server.work.shop_sheet import WrittenShop, read_shop
from tests.plan.cart import CART
from tests.work.moved_in import moved_in

SHOP = 'name = "Barrow works"\n'


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with a procedure and a design."""
    return moved_in(tmp_path / "shop")


def shop(more: str = "") -> WrittenShop:
    return read_shop(SHOP + more)[0]


def lines(folder: Path, shop: WrittenShop) -> list[FolderLine]:
    return [item for item in read_released(folder, shop) if isinstance(item, FolderLine)]


def test_a_text_is_released_whole(folder: Path) -> None:
    """A design's line holds its whole text, its digest, and the file it came from; it is known from the start."""
    design = lines(folder, shop())[1]
    assert (design.noun.kind, design.noun.id, design.noun.file) == ("design", "CART", "cart.toml")
    assert design.noun.text == CART
    assert design.noun.sha256 == hashlib.sha256(CART.encode()).hexdigest()
    assert design.received_ms is None


def test_a_procedure_is_named_by_its_revision(folder: Path) -> None:
    """A procedure's line bears the name a person says."""
    procedure = lines(folder, shop())[0]
    assert procedure.noun.kind == "procedure"
    assert " rev " in procedure.noun.id


def test_a_later_release_has_its_moment(folder: Path) -> None:
    """A file the shop names as released is known from that moment, by that person."""
    told = shop('[[released]]\nfile = "cart.toml"\nreceived_at = 2025-05-02T13:10:00Z\nby = "ada"\n')
    design = lines(folder, told)[1]
    assert (design.noun.released_by, design.received_ms is None) == ("ada", False)


def test_a_released_file_that_is_not_there_is_named(folder: Path) -> None:
    """A file named as released and missing is told, and the others are read."""
    told = shop('[[released]]\nfile = "gone.toml"\n')
    items = list(read_released(folder, told))
    (refused,) = [item for item in items if isinstance(item, SheetRefused)]
    assert refused.complaints[0].value == "'gone.toml'"
    assert len(items) == 3


def test_a_text_that_cannot_be_read_is_named(folder: Path) -> None:
    """A broken design is told with its file and line, and the procedure beside it is read."""
    (folder / "designs" / "cart.toml").write_text(CART.replace("sizes = ", "sizes "))
    items = list(read_released(folder, shop()))
    (refused,) = [item for item in items if isinstance(item, SheetRefused)]
    assert (refused.complaints[0].file, refused.complaints[0].line) == ("cart.toml", 4)
    assert len(lines(folder, shop())) == 1
