"""The mark a copy of a record carries inside its own file, so that it is not taken for the record it was made from."""

import sqlite3

from sqlalchemy import Connection

_MARK = 0x57C0
"""Stands in the header of the SQLite file, where it is changed by the same transaction as the lines."""


def mark_as_copy(copy: sqlite3.Connection) -> None:
    """Mark a copy that was just made."""
    copy.execute(f"PRAGMA user_version={_MARK}")


def is_copy(connection: Connection) -> bool:
    """Say whether a record is a copy that was not yet told to go on; a PostgreSQL record never is."""
    if connection.dialect.name != "sqlite":
        return False
    return bool(connection.exec_driver_sql("PRAGMA user_version").scalar() == _MARK)


def take_mark_off(connection: Connection) -> None:
    """Let a copy go on as the record; a change to be made together with the line that says why."""
    if connection.dialect.name == "sqlite":
        connection.exec_driver_sql("PRAGMA user_version=0")
