"""How long work says how far it is, also while the database works on one question and nothing comes back from it."""

from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from concurrent.futures import TimeoutError as NotYet
from contextlib import contextmanager
from typing import Any, TypeVar

from sqlalchemy import Connection

Say = Callable[[str, int, int], None]
"""Told what is being done, how much of it is done, and of how much; 0 of 0 where nobody can tell."""
Found = TypeVar("Found")
_EVERY_S = 0.5


def unsaid(_doing: str, _done: int, _of: int) -> None:
    """Say nothing."""


def said_beside(connection: Connection, say: Say, doing: str, work: Callable[[], Found]) -> Found:
    """Do what asks the database long questions, and go on saying so; what ends the saying ends the question."""
    if connection.dialect.name != "sqlite":
        say(doing, 0, 0)
        return work()
    with ThreadPoolExecutor(1) as beside:
        asked = beside.submit(work)
        with _ended_with(asked, connection):
            while not asked.done():
                say(doing, 0, 0)
                _wait(asked)
        return asked.result()


@contextmanager
def _ended_with(asked: Future[Any], connection: Connection) -> Iterator[None]:
    try:
        yield
    except BaseException:
        while not asked.done():
            # Between two questions there is nothing to break off, so it is said until it was heard.
            connection.connection.driver_connection.interrupt()  # type: ignore[union-attr]
            _wait(asked, 0.05)
        raise


def _wait(asked: Future[Any], seconds: float = _EVERY_S) -> None:
    try:
        asked.exception(seconds)
    except NotYet:
        return
