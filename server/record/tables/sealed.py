"""The sealed tables: every line in its order, its places in the subjects' chains, and the signed checkpoints."""

from sqlalchemy import Index, text
from sqlmodel import Field

from server.record.tables.row import WHOLE, Row

_FIRST = text("kind = 'entry' AND state IN ('taken', 'taken, not understood')")
TOLD = text("kind <> 'entry'")
PHOTO = text("entry_kind = 'photo'")
CLOCKED = text(
    "kind = 'entry' AND state IN ('taken', 'taken before') AND boot IS NOT NULL AND mono_ms IS NOT NULL "
    "AND device_ms IS NOT NULL"
)
"""A sending that tells how a device's steady counter and its clock stood; written out, so that the index fits it."""
UNCLOCKED = text(f"NOT ({CLOCKED.text})")
"""Every other line: of the house, of a register, told again otherwise, or without its clock."""


class LineRow(Row, table=True):
    """One line as it came, at its position, with the columns questions are asked by; `envelope` is what is hashed."""

    __tablename__ = "line"
    __table_args__ = (
        # The first taking of an entry is the one its receipt names; repeats and refused copies come after it.
        Index("ux_line_first", "id", unique=True, sqlite_where=_FIRST, postgresql_where=_FIRST),
        Index("ix_line_frame_entry_kind_position", "frame", "entry_kind", "position"),
        # An index over all kinds would tempt SQLite to walk through every entry for the sake of their order.
        Index("ix_line_told", "position", sqlite_where=TOLD, postgresql_where=TOLD),
        Index("ix_line_photo", "position", sqlite_where=PHOTO, postgresql_where=PHOTO),
        Index(
            "ix_line_clock", "device", "boot", "seq", "received_ms", sqlite_where=CLOCKED, postgresql_where=CLOCKED
        ),
        Index(
            "ix_line_unclocked", "device", "kind", "seq", "received_ms",
            sqlite_where=UNCLOCKED, postgresql_where=UNCLOCKED,
        ),
    )

    position: int = Field(primary_key=True, sa_type=WHOLE, sa_column_kwargs={"autoincrement": False})
    id: str = Field(index=True)
    delivery: str | None = None
    kind: str
    entry_kind: str | None = None
    device: str
    boot: str | None = None
    seq: int | None = Field(default=None, sa_type=WHOLE)
    mono_ms: int | None = Field(default=None, sa_type=WHOLE)
    device_ms: int | None = Field(default=None, sa_type=WHOLE)
    sent_ms: int | None = Field(default=None, sa_type=WHOLE)
    happened_ms: int | None = Field(default=None, sa_type=WHOLE)
    received_ms: int = Field(sa_type=WHOLE)
    frame: str | None = None
    of: str | None = Field(default=None, index=True)
    state: str
    problem: str | None = None
    body: bytes
    body_sha256: bytes
    envelope: bytes
    leaf: bytes


class SubjectLinkRow(Row, table=True):
    """A line's place in one subject's chain: its running number there and the head it led to."""

    __tablename__ = "subject_link"

    kind: str = Field(primary_key=True)
    id: str = Field(primary_key=True)
    number: int = Field(primary_key=True, sa_type=WHOLE, sa_column_kwargs={"autoincrement": False})
    position: int = Field(foreign_key="line.position", index=True, sa_type=WHOLE)
    head: bytes


class CheckpointRow(Row, table=True):
    """A signed checkpoint over the first `size` lines, the last of them being its seal; `peaks` let the tree go on."""

    __tablename__ = "checkpoint"

    size: int = Field(
        primary_key=True, foreign_key="line.position", sa_type=WHOLE, sa_column_kwargs={"autoincrement": False}
    )
    root: bytes
    peaks: bytes
    note: bytes
    made_ms: int = Field(sa_type=WHOLE)
