"""What lies where, what it is called, and that it says what it is."""

import ast
from collections.abc import Iterable
from pathlib import Path, PurePath

import pytest

from tests.house.tree import ROOT, project_files, python_files, shown

AGREED = {"README.md", "DEVELOPERS.md", "pyproject.toml", "server", "tests", "procedures", "demo_data", "docs"}
EMPTY_WORDS = {"util", "helper", "manager", "service", "base", "common", "misc"}


def outside_the_agreed(names: Iterable[str]) -> set[str]:
    return {name for name in names if not name.startswith(".")} - AGREED


def says_nothing(path: PurePath) -> bool:
    # Base metal is what the trade calls the metal that is joined.
    words = path.stem.lower().replace("-", "_").replace("base_metal", "metal").split("_")
    return any(word.removesuffix("s") in EMPTY_WORDS for word in words)


def opens_with_a_sentence(source: str) -> bool:
    first = (ast.get_docstring(ast.parse(source)) or "").partition("\n\n")[0].strip()
    return first.endswith((".", "?"))


def test_the_top_level_is_the_agreed_one() -> None:
    """Beside dot-files the project's top level holds nothing but the agreed names."""
    assert outside_the_agreed(file.relative_to(ROOT).parts[0] for file in project_files()) == set()


def test_a_stray_top_level_name_is_reported() -> None:
    """Control: a script beside the README is reported, a dot-file is not."""
    assert outside_the_agreed(["README.md", "setup.sh", ".gitignore"]) == {"setup.sh"}


def test_no_file_has_a_name_that_says_nothing() -> None:
    """No file of the server or the tests is called utils, helpers, manager, service or base."""
    ours = [file for file in project_files() if file.relative_to(ROOT).parts[0] in ("server", "tests")]
    assert [shown(file) for file in ours if says_nothing(file)] == []


@pytest.mark.parametrize("name", ["utils.py", "test_helpers.py", "gas_manager.py", "base.html", "service.js"])
def test_an_empty_name_is_reported(name: str) -> None:
    """Control: the names nobody learns anything from are reported, and database.py is not one of them."""
    assert says_nothing(PurePath(name))
    assert not says_nothing(PurePath("database.py"))


def test_every_module_opens_with_a_sentence() -> None:
    """Every Python file, rooms and tests included, opens with a sentence that says what it is."""
    files = python_files("server", "tests")
    assert [shown(file) for file in files if not opens_with_a_sentence(file.read_text())] == []


@pytest.mark.parametrize("source", ["", "import sys\n", '""" """\n', '"""cylinder things"""\n'])
def test_a_module_without_a_sentence_is_reported(source: str) -> None:
    """Control: an empty file, one that starts with code, and one that opens with a mere label are reported."""
    assert not opens_with_a_sentence(source)


def test_a_copy_without_git_is_read_too(tmp_path: Path) -> None:
    """In an unpacked archive the files outside dot-folders are the project."""
    (tmp_path / ".venv").mkdir()
    for name in (".venv/a.py", "b.py", ".gitignore"):
        (tmp_path / name).write_text("")
    assert {file.name for file in project_files(tmp_path)} == {"b.py", ".gitignore"}
