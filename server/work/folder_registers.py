"""Reads all that stands in the TOML files of a shop folder: the shop, its procedures and designs, its registers."""

from collections.abc import Iterator
from pathlib import Path

from server.sheets.complaint import Complaint, SheetRefused
from server.work.folder_line import FolderLine
from server.work.register_sheet import read_register
from server.work.released_texts import read_released
from server.work.shop_sheet import SHOP_FILE, read_shop

_LEANED_ON_FIRST = (
    "shop", "person", "bench", "instrument", "range table", "change table", "qualification", "confirmation",
    "calibration", "acceptance",
    "filler lot", "rod sleeve", "fill lot", "tube heat", "procedure", "design", "customer", "packet",
)  # fmt: skip


def read_registers(folder: Path) -> tuple[list[FolderLine], list[Complaint]]:
    """Give every register line of the folder, those others lean on first, and everything wrong."""
    lines: list[FolderLine] = []
    wrong: list[Complaint] = []
    for item in _all_of(folder):
        if isinstance(item, SheetRefused):
            wrong += item.complaints
        else:
            lines.append(item)
    return sorted(lines, key=_rank), wrong


def _rank(line: FolderLine) -> int:
    kind = line.noun.kind
    return _LEANED_ON_FIRST.index(kind) if kind in _LEANED_ON_FIRST else len(_LEANED_ON_FIRST)


def _all_of(folder: Path) -> Iterator[FolderLine | SheetRefused]:
    sheet = folder / SHOP_FILE
    if not sheet.is_file():
        missing = "a shop folder, with its shop.toml"
        yield SheetRefused([Complaint(str(sheet), 0, "the file", "missing", missing, "Make one with `init FOLDER`.")])
        return
    try:
        shop, line = read_shop(sheet.read_text(encoding="utf-8"))
    except SheetRefused as refused:
        yield refused
    else:
        yield line
        yield from read_released(folder, shop)
    for file in sorted(folder.glob("*.toml")):
        if file.name != SHOP_FILE:
            yield from _register(file)


def _register(file: Path) -> Iterator[FolderLine | SheetRefused]:
    try:
        yield from read_register(file.read_text(encoding="utf-8"), file.name)
    except SheetRefused as refused:
        yield refused
