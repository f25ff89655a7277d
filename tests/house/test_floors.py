"""Imports run downwards only, as pyproject.toml says and DEVELOPERS.md draws."""

import os
import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from tests.house.tree import ROOT

LINTER = Path(sys.executable).with_name("lint-imports")


def lint(folder: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [LINTER, "--no-logo", "--no-cache", "--config", ROOT / "pyproject.toml"],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(folder)},
        capture_output=True,
        text=True,
        check=False,
    )


def house_of_empty_rooms(folder: Path) -> Path:
    """A server with every room the contract names and nothing in them."""
    layers = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["importlinter"]["contracts"][0]["layers"]
    for room in re.findall(r"\w+", " ".join(layers)):
        (folder / "server" / room).mkdir(parents=True)
        (folder / "server" / room / "__init__.py").write_text("")
    (folder / "server" / "__init__.py").write_text("")
    return folder / "server"


def test_our_own_imports_keep_to_the_floors() -> None:
    """Every import contract of pyproject.toml is kept by the house as it stands."""
    done = lint(ROOT)
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.parametrize(
    ("room", "imported"),
    [
        ("facts", "server.physics"),
        ("physics", "server.facts"),
        ("physics", "server.statistics"),
        ("judgement", "server.record"),
        ("judgement", "server.occasions"),
        ("record", "server.documents"),
        ("work", "server.pages"),
        ("pages", "server.api"),
        ("occasions", "sqlalchemy"),
        ("procedures", "fastapi"),
        ("door", "server.facts"),
    ],
)
def test_an_import_that_goes_up_or_sideways_is_reported(tmp_path: Path, room: str, imported: str) -> None:
    """Control: one import against the floors in an otherwise empty house breaks a contract."""
    (house_of_empty_rooms(tmp_path) / room / "__init__.py").write_text(f"import {imported}\n")
    done = lint(tmp_path)
    assert done.returncode == 1, done.stdout + done.stderr
    assert "BROKEN" in done.stdout


def test_a_room_without_a_floor_is_reported(tmp_path: Path) -> None:
    """Control: a room that nobody put on a floor breaks the contract, an empty house of ours does not."""
    server = house_of_empty_rooms(tmp_path)
    assert lint(tmp_path).returncode == 0
    (server / "attic").mkdir()
    (server / "attic" / "__init__.py").write_text("")
    assert "attic" in lint(tmp_path).stdout


def test_two_modules_that_import_each_other_are_reported(tmp_path: Path) -> None:
    """Control: a circle within a room is reported, also where one of its imports waits inside a function."""
    room = house_of_empty_rooms(tmp_path) / "work"
    (room / "first.py").write_text("from server.work import second\n")
    (room / "second.py").write_text("")
    assert lint(tmp_path).returncode == 0
    (room / "second.py").write_text("def later():\n    from server.work import first\n")
    assert "No cycles are allowed in server.work" in lint(tmp_path).stdout
