"""What every kind of question shares: one connection, one transaction, and how far back the answer may know."""

from sqlalchemy import Connection, func, select

from server.record.known_registers import KnownRegisters
from server.record.tables.columns import LINE

AT_THE_END = 2**53
"""A position behind every line, for a question that is asked of everything known."""


class Asking:
    """A connection to ask over, and the registers already read."""

    def __init__(self, connection: Connection, known: KnownRegisters, kept: int | None = None) -> None:
        self._connection = connection
        self._known = known
        self._kept = kept

    def last_position(self) -> int:
        """Give the position of the last line, 0 when there is none."""
        return self._connection.execute(select(func.max(LINE.position))).scalar() or 0


def up_to(known_at: int | None) -> int:
    """Give the last position an answer may rest on."""
    return AT_THE_END if known_at is None else known_at
