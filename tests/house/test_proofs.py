"""The tests themselves: each says what it proves, and none is switched off."""

import ast
import re

import pytest

from tests.house.tree import ROOT, python_files, shown, text_files

# Put together from pieces, so that this file does not report itself.
SWITCHED_OFF = re.compile(
    "|".join((r"mark\.sk" + r"ip\b", r"mark\.xf" + "ail", r"pytest\.sk" + r"ip\b", "assert " + r"True\b"))
)
UNFINISHED = re.compile("|".join((r"\bTO" + r"DO\b", r"\bFIX" + r"ME\b", r"\bX" + r"XX\b", "NotImplemented" + "Error")))


def silent_tests(source: str) -> list[str]:
    functions = (
        node for node in ast.walk(ast.parse(source)) if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
    )
    return [node.name for node in functions if node.name.startswith("test_") and not ast.get_docstring(node)]


def test_every_test_says_what_it_proves() -> None:
    """Every test opens with the fact it proves."""
    found = {shown(file): silent_tests(file.read_text()) for file in python_files("tests")}
    assert {name: silent for name, silent in found.items() if silent} == {}


def test_a_silent_test_is_reported() -> None:
    """Control: a test without a sentence is reported, also an async one inside a class."""
    assert silent_tests("class A:\n    async def test_x(self):\n        pass\n") == ["test_x"]
    assert silent_tests('def test_x():\n    """One is one."""\n') == []


def test_no_test_is_switched_off() -> None:
    """No test is skipped, expected to fail, or asserts nothing."""
    assert [shown(file) for file in python_files("tests") if SWITCHED_OFF.search(file.read_text())] == []


def test_nothing_is_left_unfinished() -> None:
    """No file carries a mark of work put off."""
    files = [
        file
        for file in text_files("server", "tests", "docs")
        if file.relative_to(ROOT).parts[0] != "docs" or file.suffix == ".md"
    ]
    assert [shown(file) for file in files if UNFINISHED.search(file.read_text(encoding="utf-8"))] == []


@pytest.mark.parametrize(
    "line", ["@pytest.mark.sk" + "ip", "@pytest.mark.xf" + "ail(reason='x')", "    assert " + "True"]
)
def test_a_switched_off_test_is_reported(line: str) -> None:
    """Control: each way of switching a test off is reported."""
    assert SWITCHED_OFF.search(line)


@pytest.mark.parametrize("line", ["# TO" + "DO later", "raise NotImplemented" + "Error"])
def test_unfinished_work_is_reported(line: str) -> None:
    """Control: marks of work put off are reported."""
    assert UNFINISHED.search(line)
