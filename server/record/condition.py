"""How the record is: engine and version, schema, guards, size, and what keeps it closed where it is."""

from typing import NamedTuple

from sqlalchemy import Connection, func, select

from server.record.copy_mark import is_copy
from server.record.guards import missing_guards
from server.record.schema import revision_of
from server.record.tables.columns import CHECKPOINT, LINE
from server.record.troubles import RecordClosed
from server.record.write_ahead import WriteAhead

# Up to these versions a checkpoint racing a commit of another connection could lose what was written.
_MENDED = ((3, 44, 6), (3, 50, 7), (3, 51, 3))


class Condition(NamedTuple):
    """The state of an open record, for whoever looks after it."""

    engine: str
    version: str
    schema: str | None
    missing_guards: tuple[str, ...]
    lines: int
    sealed_lines: int
    write_ahead_bytes: int
    notes: tuple[str, ...]
    closed: str | None
    copy: bool = False
    oldest_read_s: float = 0.0

    @property
    def fit(self) -> bool:
        """Say whether entries are taken and guarded."""
        return self.closed is None and not self.missing_guards


def condition_of(connection: Connection, closed: RecordClosed | None, write_ahead: WriteAhead | None) -> Condition:
    """Look at a record over a reading connection."""
    version = tuple(int(part) for part in connection.dialect.server_version_info or ())
    return Condition(
        engine=connection.dialect.name,
        version=".".join(map(str, version)),
        schema=revision_of(connection),
        missing_guards=tuple(missing_guards(connection)),
        lines=connection.execute(select(func.max(LINE.position))).scalar() or 0,
        sealed_lines=connection.execute(select(func.max(CHECKPOINT.size))).scalar() or 0,
        write_ahead_bytes=write_ahead.bytes if write_ahead else 0,
        notes=notes_on_version(connection.dialect.name, version),
        closed=str(closed) if closed else None,
        copy=is_copy(connection),
    )


def notes_on_version(engine: str, version: tuple[int, ...]) -> tuple[str, ...]:
    """Say what is to be known of a SQLite version; source: the version list given with SQLite's own announcement.

    >>> notes_on_version("sqlite", (3, 51, 3))
    ()
    """
    if engine != "sqlite" or version >= _MENDED[-1] or any(m[:2] == version[:2] and version >= m for m in _MENDED):
        return ()
    shown = ".".join(map(str, version))
    said = (
        f"SQLite {shown} can lose a commit that races another connection's checkpoint (mended in 3.44.6, 3.50.7 and "
        "3.51.3); here one connection alone commits and checkpoints, so keep every other program away from the file"
    )
    return (said,)
