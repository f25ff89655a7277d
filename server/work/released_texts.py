"""Reads the written procedures and the designs a shop folder names: each is released whole, with its digest."""

import hashlib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from server.facts.register_line import ReleasedText
from server.plan.reading import read_design
from server.procedures.reading import read_procedure
from server.sheets.complaint import Complaint, SheetRefused
from server.work.folder_line import FolderLine, line_of
from server.work.shop_sheet import SHOP_FILE, ReleasedWhen, WrittenShop


def read_released(folder: Path, shop: WrittenShop) -> Iterator[FolderLine | SheetRefused]:
    """Give a line for every procedure and design, or what is wrong with it."""
    when = {Path(released.file).as_posix(): released for released in shop.released}
    yield from _texts(folder / shop.procedures, "procedure", _procedure_id, when)
    yield from _texts(folder / shop.designs, "design", _design_id, when)
    for name in when:
        yield SheetRefused([Complaint(SHOP_FILE, 0, "released.file", repr(name), "a file that is there", "Mend it.")])


def _texts(
    folder: Path, kind: str, read_id: Callable[[str, str], str], when: dict[str, ReleasedWhen]
) -> Iterator[FolderLine | SheetRefused]:
    for file in sorted(folder.rglob("*.toml")):
        name = file.relative_to(folder).as_posix()
        try:
            text = file.read_text(encoding="utf-8")
            yield _line(kind, read_id(text, name), name, text, when.pop(name, None))
        except SheetRefused as refused:
            yield refused


def _procedure_id(text: str, file: str) -> str:
    return read_procedure(text, file).called


def _design_id(text: str, file: str) -> str:
    return read_design(text, file).name


def _line(kind: str, named: str, file: str, text: str, released: ReleasedWhen | None) -> FolderLine:
    sha256 = hashlib.sha256(text.encode()).hexdigest()
    told: dict[str, Any] = {"kind": kind, "id": named, "file": file, "sha256": sha256, "text": text}
    if released and released.by:
        told["released_by"] = released.by
    return line_of(ReleasedText.model_validate(told), told, released.received_at if released else None)
