"""What a list is: its title, its typed columns, and how its rows are read from the record."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from server.documents.list_csv import Cell, Column
from server.record.reads import Reads

Rows = list[Sequence[Cell]]


class AList(NamedTuple):
    """One list: its title, its columns, and how its rows are read."""

    title: str
    columns: tuple[Column, ...]
    rows: Callable[[Reads], Rows]


def texts(**words: str) -> tuple[Column, ...]:
    """Make columns of text, each with what stands in it."""
    return tuple(Column(name, "string", said) for name, said in words.items())
