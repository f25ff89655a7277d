"""A text table with headers somewhere in its first lines: where its columns are, and their numbers."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from server.physics.errors import UnusableInput

if TYPE_CHECKING:
    from server.physics.arrays import Floats

_LINES_SEARCHED = 100
_EMPTY = {"", "nan", "-", "--", "n/a"}


class Table(NamedTuple):
    """The rows below the headers, the sign that parts their fields, the columns wanted, and the line of the headers."""

    rows: list[str]
    parted_by: str
    columns: tuple[int, ...]
    header_line: int


def find_header(text: str, wanted: Sequence[str]) -> Table:
    """Find the line that holds all headers wanted, and with it how fields are parted."""
    lines = text.splitlines()
    for at, line in enumerate(lines[:_LINES_SEARCHED]):
        for parted_by in (";", "\t", ","):
            fields = _fields(line, parted_by)
            if all(name.strip() in fields for name in wanted):
                columns = tuple(fields.index(name.strip()) for name in wanted)
                return Table([row for row in lines[at + 1 :] if row.strip()], parted_by, columns, at + 1)
    seen = next((line for line in lines if line.strip()), "nothing")[:200]
    remedy = "Name the headers as the file has them, in one line of its first hundred."
    raise UnusableInput("headers", list(wanted), f"headers such as those in {seen!r}", remedy)


def _fields(line: str, parted_by: str) -> list[str]:
    try:
        return [field.strip() for field in next(csv.reader([line], delimiter=parted_by), [])]
    except csv.Error:
        return []


def read_rows(table: Table) -> Floats:
    """The numbers of the columns wanted, a row per sample."""
    import numpy as np

    if not table.rows:
        raise UnusableInput("trace", "no rows", "rows of numbers below the headers", "Attach the whole recording.")
    rows = table.rows if table.parted_by == "," else [row.replace(",", ".") for row in table.rows]
    try:
        return np.loadtxt(
            rows, np.float64, comments=None, delimiter=table.parted_by, usecols=table.columns, ndmin=2, quotechar='"'
        )
    except ValueError:
        return _read_slowly(rows, table)


def _read_slowly(rows: list[str], table: Table) -> Floats:
    """Row by row, for a table with empty fields, and to name the first field that is no number."""
    import numpy as np

    numbers = np.empty((len(rows), len(table.columns)))
    for at, row in enumerate(rows):
        fields = _fields(row, table.parted_by)
        for place, column in enumerate(table.columns):
            numbers[at, place] = _number(fields[column] if column < len(fields) else "", at + 1, table)
    return numbers


def _number(field: str, row: int, table: Table) -> float:
    if field.strip().lower() in _EMPTY:
        return float("nan")
    try:
        return float(field)
    except ValueError:
        place = f"row {row} below the headers in line {table.header_line}"
        raise UnusableInput(place, field, "a number", "Correct that field, or leave it empty.") from None
