"""An empty shop folder: commented, and loadable as it stands."""

import re
import tomllib
from pathlib import Path

import pytest

from server.work.init_folder import FolderInUse, init_folder
from server.work.register_sheet import read_register
from server.work.shop_folder import read_shop_folder
from server.work.shop_sheet import read_shop

HEADED = re.compile(r"^# (\[\[|[a-z_]+ = |  \{|\])")


def uncommented(text: str) -> str:
    """The file with its examples switched on."""
    return "\n".join(line[2:] if HEADED.match(line) else line for line in text.splitlines())


def test_it_is_written_and_can_be_read(tmp_path: Path) -> None:
    """The new folder reads as a shop folder in which only the shop itself is told."""
    written = init_folder(tmp_path / "shop")
    assert {"shop.toml", "people.toml", "procedures", "deliveries.jsonl"} <= {file.name for file in written}
    assert read_shop_folder(tmp_path / "shop").lines == 1


def test_every_example_in_it_is_a_good_one(tmp_path: Path) -> None:
    """With the comment marks taken away every example table is what the loader takes."""
    init_folder(tmp_path / "shop")
    for sheet in sorted((tmp_path / "shop").glob("*.toml")):
        text = uncommented(sheet.read_text(encoding="utf-8"))
        told = tomllib.loads(text)
        if sheet.name == "shop.toml":
            assert read_shop(text)[0].released
        else:
            assert len(read_register(text, sheet.name)) >= sum(map(len, told.values())) > 0


def test_a_folder_that_holds_something_is_left_alone(tmp_path: Path) -> None:
    """A folder with a file in it, or a file of that name, is refused and not touched."""
    (tmp_path / "mine.txt").write_text("mine")
    for taken in (tmp_path, tmp_path / "mine.txt"):
        with pytest.raises(FolderInUse, match="not empty"):
            init_folder(taken)
    assert [file.name for file in tmp_path.iterdir()] == ["mine.txt"]
