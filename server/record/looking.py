"""Looks at a record without opening it for writing, also while a service writes it."""

from typing import NamedTuple

from sqlalchemy.exc import SQLAlchemyError

from server.record.asking import Remembered
from server.record.condition import Condition, condition_of
from server.record.engines import make_engines
from server.record.opening import file_of
from server.record.reading_lines import LineReads
from server.record.schema import REVISION
from server.record.tail_check import odd_tail
from server.record.write_ahead import WriteAhead


class CannotLook(Exception):
    """There is no record, or none that can be read."""


class Looked(NamedTuple):
    """How a record is, what does not hold at its end, and when its last line arrived [ms, UTC]."""

    condition: Condition
    odd: tuple[str, ...]
    last_received_ms: int


def look_at_record(url: str) -> Looked:
    """Look at schema, guards, mark and end of a record."""
    file = file_of(url)
    if file and not file.exists():
        raise CannotLook(f"there is no record at {file}; serving or loading makes one")
    engine = make_engines(url).reading
    try:
        with engine.connect() as connection, connection.begin():
            condition = condition_of(connection, None, WriteAhead(file) if file else None)
            if condition.schema != REVISION:
                raise CannotLook(f"its schema is {condition.schema!r}, this program speaks {REVISION!r}; run migrate")
            last_ms = LineReads(connection, Remembered()).last_received_ms()
            return Looked(condition, tuple(odd_tail(connection)), last_ms)
    except SQLAlchemyError as broken:
        raise CannotLook(f"the record cannot be read: {broken}") from broken
    finally:
        engine.dispose()
