"""The derived tables: what the judgement said and when; appended to, never changed, and not sealed."""

from sqlalchemy import Index
from sqlmodel import Field

from server.record.tables.row import WHOLE, Row


class VerdictRow(Row, table=True):
    """All verdicts about one subject at one judging, packed; the newest by number is the one that stands."""

    __tablename__ = "verdict"
    __table_args__ = (Index("ix_verdict_subject_level_number", "subject", "level", "number"),)

    number: int | None = Field(default=None, primary_key=True, sa_type=WHOLE)
    subject: str
    level: str
    frame: str | None = Field(default=None, index=True)
    known_at: int = Field(sa_type=WHOLE)
    book: str
    packed: str
    digest: bytes


class FindingRow(Row, table=True):
    """A verdict somebody must read, or that it is gone; the newest by number under one key is the one that stands."""

    __tablename__ = "finding"
    __table_args__ = (Index("ix_finding_key_number", "key", "number"),)

    number: int | None = Field(default=None, primary_key=True, sa_type=WHOLE)
    key: str
    about: str = Field(index=True)
    level: str
    frame: str | None = Field(default=None, index=True)
    known_at: int = Field(sa_type=WHOLE)
    book: str
    question: str
    word: str
    severity: str
    gone: bool
    verdict: str


class JudgedToRow(Row, table=True):
    """A watermark: every line up to `position` has been judged under `book`."""

    __tablename__ = "judged_to"
    __table_args__ = (Index("ix_judged_to_book_position", "book", "position"),)

    number: int | None = Field(default=None, primary_key=True, sa_type=WHOLE)
    book: str
    position: int = Field(sa_type=WHOLE)
    judged_ms: int = Field(sa_type=WHOLE)
