"""What a list is: its title, its typed columns, who may have it, and how its rows are read from the record."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from starlette.datastructures import QueryParams

from server.documents.list_csv import Cell, Column
from server.facts.people import Role
from server.record.reads import Reads
from server.work.refusal import NotThere

Rows = list[Sequence[Cell]]
LEADS: tuple[Role, ...] = ("quality lead", "owner")
OFFICE: tuple[Role, ...] = (*LEADS, "office")


class AList(NamedTuple):
    """One list: its title, its columns, how its rows are read, and which roles may have it."""

    title: str
    columns: tuple[Column, ...]
    rows: Callable[[Reads], Rows]
    roles: tuple[Role, ...] = LEADS

    def asked(self, reads: Reads, _: QueryParams) -> Rows:
        """Read the rows; this list asks nothing further."""
        return self.rows(reads)


class AskedList(NamedTuple):
    """A list of what a page shows for one question: the same question stands in its address."""

    title: str
    columns: tuple[Column, ...]
    asked: Callable[[Reads, QueryParams], Rows]
    roles: tuple[Role, ...] = LEADS


def texts(**words: str) -> tuple[Column, ...]:
    """Make columns of text, each with what stands in it."""
    return tuple(Column(name, "string", said) for name, said in words.items())


def numbers(**words: str) -> tuple[Column, ...]:
    """Make columns of numbers, each with what stands in it and its unit."""
    return tuple(Column(name, "number", said) for name, said in words.items())


def counts(**words: str) -> tuple[Column, ...]:
    """Make columns of whole numbers, each with what is counted."""
    return tuple(Column(name, "integer", said) for name, said in words.items())


def moments(**words: str) -> tuple[Column, ...]:
    """Make columns of moments, each with what happened then."""
    return tuple(Column(name, "dateTime", f"{said}, UTC") for name, said in words.items())


def wanted(asked: QueryParams, name: str) -> str:
    """Give what a list has to be asked by; raises `NotThere` where the address does not say."""
    if not (said := asked.get(name, "").strip()):
        raise NotThere(f"{name}: empty; take the address from the page whose list this is")
    return said
