"""Counts the statements a database is asked, so that a test can say that their number does not grow."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from sqlalchemy import event

from server.record.engines import Engines

_COUNTED = ("SELECT", "INSERT", "UPDATE", "DELETE", "WITH")


@contextmanager
def counting(engines: Engines) -> Iterator[list[str]]:
    """Collect each statement sent while the block runs; what opens and ends transactions is not counted."""
    statements: list[str] = []

    def note(_connection: Any, _cursor: Any, statement: str, *_rest: Any) -> None:
        if statement.lstrip(" (").upper().startswith(_COUNTED):
            statements.append(statement)

    for engine in engines:
        event.listen(engine, "before_cursor_execute", note)
    try:
        yield statements
    finally:
        for engine in engines:
            event.remove(engine, "before_cursor_execute", note)
