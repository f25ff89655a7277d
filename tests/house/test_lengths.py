"""Files and functions stay short."""

import ast
from collections.abc import Iterable
from pathlib import Path
from statistics import median, quantiles

from tests.house.tree import python_files, shown, text_files

LONGEST_FILE = 300
MEDIAN_FILE = 80
MEDIAN_FUNCTION = 10
NINE_IN_TEN_FUNCTIONS = 30
WRITTEN_BY_HAND = {".py", ".html", ".css", ".js", ".typ"}


def too_long(files: Iterable[Path]) -> list[str]:
    lengths = {shown(file): len(file.read_text(encoding="utf-8").splitlines()) for file in files}
    return [f"{name}: {lines} lines" for name, lines in lengths.items() if lines > LONGEST_FILE]


def function_lengths(source: str) -> list[int]:
    functions = (
        node for node in ast.walk(ast.parse(source)) if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
    )
    return [(node.end_lineno or node.lineno) - node.lineno + 1 for node in functions]


def too_long_on_the_whole(lengths: list[int]) -> list[str]:
    middle, ninth_tenth = median(lengths), quantiles(lengths, n=10, method="inclusive")[-1]
    said = []
    if middle >= MEDIAN_FUNCTION:
        said.append(f"median {middle} lines, expected under {MEDIAN_FUNCTION}")
    if ninth_tenth >= NINE_IN_TEN_FUNCTIONS:
        said.append(f"nine in ten up to {ninth_tenth} lines, expected under {NINE_IN_TEN_FUNCTIONS}")
    return said


def test_no_file_is_over_three_hundred_lines() -> None:
    """No file written by hand in the server or the tests has more than 300 lines."""
    assert too_long(file for file in text_files("server", "tests") if file.suffix in WRITTEN_BY_HAND) == []


def test_a_long_file_is_reported(tmp_path: Path) -> None:
    """Control: 301 lines are reported and 300 are not."""
    (tmp_path / "long.py").write_text("a = 1\n" * 301)
    (tmp_path / "short.py").write_text("a = 1\n" * 300)
    assert too_long([tmp_path / "long.py", tmp_path / "short.py"]) == ["long.py: 301 lines"]


def test_half_the_files_are_short() -> None:
    """The median file of the server is under 80 lines."""
    assert median(len(file.read_text().splitlines()) for file in python_files("server")) < MEDIAN_FILE


def test_functions_are_short_on_the_whole() -> None:
    """Over the whole server the median function is under 10 lines and nine in ten are under 30."""
    lengths = [length for file in python_files("server") for length in function_lengths(file.read_text())]
    assert too_long_on_the_whole(lengths) == []


def test_long_functions_are_reported() -> None:
    """Control: a house of ten-line functions and one of a few giants are both reported."""
    assert function_lengths("def f():\n    '''d'''\n    return 1\n") == [3]
    assert len(too_long_on_the_whole([10] * 20)) == 1
    assert len(too_long_on_the_whole([3] * 16 + [40] * 4)) == 1
    assert too_long_on_the_whole([3] * 18 + [29] * 2) == []
