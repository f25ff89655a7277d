"""Writes an empty shop folder whose files say in comments what belongs into them."""

from collections.abc import Iterator
from pathlib import Path

from server.work.refusal import Refusal

_SHEETS = Path(__file__).parent / "empty_shop"
_FOLDERS = ("procedures", "designs")
_LOGS = ("papers.jsonl", "deliveries.jsonl")


class FolderInUse(Refusal):
    """The folder holds something already, so nothing was written into it."""


def init_folder(folder: Path) -> list[Path]:
    """Write the folder and give what was written; raises `FolderInUse` rather than touch what is there."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise FolderInUse(f"{folder} is there and not empty; name a new folder, or empty this one first")
    return list(_written(folder))


def _written(folder: Path) -> Iterator[Path]:
    for name in _FOLDERS:
        (folder / name).mkdir(parents=True)
        yield folder / name
    for sheet in sorted(_SHEETS.glob("*.toml")):
        copy = folder / sheet.name
        copy.write_text(sheet.read_text(encoding="utf-8"), encoding="utf-8")
        yield copy
    for name in _LOGS:
        (folder / name).touch()
        yield folder / name
