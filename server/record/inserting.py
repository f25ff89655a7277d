"""Puts placed lines into the tables, with their places in the chains."""

from collections.abc import Sequence

from sqlalchemy import Connection, insert

from server.record.drafts import Draft
from server.record.lines import NewLine, Placed
from server.record.tables.columns import LINE_TABLE, LINK_TABLE

_LINE = insert(LINE_TABLE)
_LINK = insert(LINK_TABLE)


def insert_lines(connection: Connection, draft: Draft, lines: Sequence[NewLine]) -> tuple[Placed, ...]:
    """Place the lines one behind the other and insert them, two statements however many there are."""
    drafted = [draft.place(line) for line in lines]
    if drafted:
        connection.execute(_LINE, [each.line for each in drafted])
    if links := [link for each in drafted for link in each.links]:
        connection.execute(_LINK, links)
    return tuple(each.placed for each in drafted)
