"""Writes a list as CSV with a sheet beside it that says what each column is, as CSV on the Web describes it (W3C)."""

import csv
import io
import json
from collections.abc import Iterable, Sequence
from typing import Literal, NamedTuple

Cell = str | int | float | None
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")


class Column(NamedTuple):
    """One column: its name, what kind of value it holds, and in words what it means, with the unit where it has one."""

    name: str
    kind: Literal["string", "integer", "number", "dateTime", "date"]
    words: str


def list_csv(columns: Sequence[Column], rows: Iterable[Sequence[Cell]], *, guarded: bool = False) -> str:
    """Give the list; guarded, a text that a spreadsheet could take for a formula gets an apostrophe before it.

    >>> list_csv([Column("a", "string", "")], [["=1+1"]], guarded=True)
    "a\\r\\n'=1+1\\r\\n"
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([each.name for each in columns])
    for row in rows:
        writer.writerow([_guarded(cell) if guarded else _plain(cell) for cell in row])
    return out.getvalue()


def list_metadata(name: str, title: str, columns: Sequence[Column]) -> str:
    """Give the sheet beside the list: every column with its type and its meaning."""
    told = {
        "@context": "http://www.w3.org/ns/csvw",
        "url": name,
        "dc:title": title,
        "dialect": {"header": True, "lineTerminators": ["\r\n"]},
        "tableSchema": {
            "columns": [
                {"name": each.name, "titles": each.name, "datatype": each.kind, "dc:description": each.words}
                for each in columns
            ]
        },
    }
    return json.dumps(told, ensure_ascii=False, indent=1)


def _plain(cell: Cell) -> Cell:
    return "" if cell is None else cell


def _guarded(cell: Cell) -> Cell:
    risky = isinstance(cell, str) and cell.startswith(_FORMULA)
    return f"'{cell}" if risky else _plain(cell)
