"""Puts rows into tables, many to a statement: placed lines with their places in the chains, and what was judged."""

from collections.abc import Sequence
from itertools import chain
from typing import Any

from sqlalchemy import Connection, Dialect, Table

from server.record.drafts import Draft, Link
from server.record.lines import NewLine, Placed, StoredLine
from server.record.tables.columns import LINE_TABLE, LINK_TABLE

_MOST_VALUES = 30_000
"""How many values one statement may carry, a little below what either engine takes."""


def insert_lines(connection: Connection, draft: Draft, lines: Sequence[NewLine]) -> tuple[Placed, ...]:
    """Place the lines one behind the other and insert them, two statements for all that one request can hold."""
    drafted = [draft.place(line) for line in lines]
    insert_rows(connection, LINE_TABLE, StoredLine._fields, [each.line for each in drafted])
    insert_rows(connection, LINK_TABLE, Link._fields, [link for each in drafted for link in each.links])
    return tuple(each.placed for each in drafted)


def insert_rows(connection: Connection, table: Table, columns: Sequence[str], rows: Sequence[tuple[Any, ...]]) -> None:
    """Append rows in their order, as few statements as their values allow."""
    # Row by row, SQLite would copy every page a guarded table touches, once for each row, lest the guard refuse it.
    at_once = _MOST_VALUES // len(columns)
    for first in range(0, len(rows), at_once):
        some = rows[first : first + at_once]
        values = tuple(chain.from_iterable(some))
        connection.exec_driver_sql(_statement(connection.dialect, table, columns, len(some)), values)


def _statement(dialect: Dialect, table: Table, columns: Sequence[str], rows: int) -> str:
    mark = "?" if dialect.paramstyle == "qmark" else "%s"
    names = ", ".join(dialect.identifier_preparer.format_column(table.c[name]) for name in columns)
    row = f"({', '.join([mark] * len(columns))})"
    return f"INSERT INTO {table.name} ({names}) VALUES {', '.join([row] * rows)}"  # noqa: S608
