"""Questions for what was judged: the findings that stand, the verdicts of a subject or a frame, and how far it went."""

from collections.abc import Collection, Sequence
from typing import Any

from sqlalchemy import ColumnElement, Select, bindparam, func, or_, select

from server.facts.finding import Finding
from server.facts.judged import Verdict
from server.record.asking import Asking, up_to
from server.record.judged import read_finding, unpack
from server.record.tables.columns import FINDING, JUDGED_TO, VERDICT

THEN = "then"
"""The book that judges everything by what was in force when it happened."""


_FINDING = (FINDING.about, FINDING.verdict, FINDING.frame, FINDING.known_at, FINDING.book)


def _standing_findings(*asked: ColumnElement[bool]) -> Select[Any]:
    rows = (FINDING.book == bindparam("book"), FINDING.known_at <= bindparam("known_at"), *asked)
    newest = select(func.max(FINDING.number)).where(*rows).group_by(FINDING.key)
    return select(*_FINDING).where(FINDING.number.in_(newest), FINDING.gone.is_(False)).order_by(FINDING.key)


def _standing_verdicts(*asked: ColumnElement[bool]) -> Select[Any]:
    rows = (VERDICT.book == bindparam("book"), VERDICT.known_at <= bindparam("known_at"), *asked)
    newest = select(func.max(VERDICT.number)).where(*rows).group_by(VERDICT.subject, VERDICT.level)
    standing = select(VERDICT.subject, VERDICT.level, VERDICT.packed).where(VERDICT.number.in_(newest))
    return standing.order_by(VERDICT.number)


# Made once: to put such a statement together takes longer than to answer it.
_FINDINGS_OF_FRAME = _standing_findings(FINDING.frame == bindparam("frame"))
_FINDINGS_ABOUT = _standing_findings(FINDING.about == bindparam("about"))
_VERDICTS_OF_FRAME = _standing_verdicts(VERDICT.frame == bindparam("frame"))
_VERDICTS_ABOUT = _standing_verdicts(VERDICT.subject == bindparam("about"))


class JudgedReads(Asking):
    """Findings and verdicts as they stand, or as they stood when less was known."""

    def findings(
        self,
        *,
        frame: str | None = None,
        frames: Collection[str] | None = None,
        keys: Collection[str] | None = None,
        shared: bool = False,
        known_at: int | None = None,
        book: str = THEN,
    ) -> list[Finding]:
        """Give the findings that stand: of all, of one frame or several (and of what frames share), under some keys."""
        if frame is not None and frames is None and keys is None:
            return [read_finding(*row[1:]) for row in self._ask(_FINDINGS_OF_FRAME, known_at, book, frame=frame)]
        asked = [FINDING.frame == frame] if frame is not None else []
        asked += [_of_frames(frames, shared=shared)] if frames is not None else []
        asked += [FINDING.key.in_(sorted(keys))] if keys is not None else []
        return [read_finding(*row[1:]) for row in self._ask(_standing_findings(*asked), known_at, book)]

    def verdicts_of(self, subject: str, known_at: int | None = None, book: str = THEN) -> tuple[Verdict, ...]:
        """Give every verdict about one subject: findings in full, the rest with word, value and limit."""
        asked = (known_at, book)
        found = self._verdicts(
            self._ask(_VERDICTS_ABOUT, *asked, about=subject), self._ask(_FINDINGS_ABOUT, *asked, about=subject)
        )
        return tuple(verdict for verdicts in found.values() for verdict in verdicts)

    def verdicts_of_frame(
        self, frame: str, known_at: int | None = None, book: str = THEN
    ) -> dict[tuple[str, str], tuple[Verdict, ...]]:
        """Give every verdict about a frame, by subject and level."""
        asked = (known_at, book)
        return self._verdicts(
            self._ask(_VERDICTS_OF_FRAME, *asked, frame=frame), self._ask(_FINDINGS_OF_FRAME, *asked, frame=frame)
        )

    def finding_history(self, key: str) -> list[tuple[Finding, bool]]:
        """Give every judging that changed one finding, in order, each with whether it was gone then."""
        columns = (FINDING.verdict, FINDING.frame, FINDING.known_at, FINDING.book, FINDING.gone)
        asked = select(*columns).where(FINDING.key == key).order_by(FINDING.number)
        return [(read_finding(*rest), gone) for *rest, gone in self._connection.execute(asked)]

    def judged_to(self, book: str = THEN) -> int:
        """Give the position up to which everything has been judged under a book."""
        furthest = select(func.max(JUDGED_TO.position)).where(JUDGED_TO.book == book)
        return self._connection.execute(furthest).scalar() or 0

    def _ask(self, statement: Select[Any], known_at: int | None, book: str, **further: str) -> Sequence[Any]:
        told = {"known_at": up_to(known_at), "book": book, **further}
        return self._connection.execute(statement, told).all()

    @staticmethod
    def _verdicts(
        verdicts: Sequence[Any], findings: Sequence[Any]
    ) -> dict[tuple[str, str], tuple[Verdict, ...]]:
        found: dict[str, list[Verdict]] = {}
        for row in findings:
            found.setdefault(row[0], []).append(read_finding(*row[1:]).verdict)
        return {(row[0], row[1]): unpack(row[0], row[2], found.get(row[0], ())) for row in verdicts}


def _of_frames(frames: Collection[str], *, shared: bool) -> ColumnElement[bool]:
    named = FINDING.frame.in_(sorted(frames))
    return or_(named, FINDING.frame.is_(None)) if shared else named
