"""Questions for what was judged: the findings that stand, the verdicts of a subject or a frame, and how far it went."""

from collections.abc import Collection

from sqlalchemy import ColumnElement, and_, func, select

from server.facts.finding import Finding
from server.facts.judged import Verdict
from server.record.asking import Asking, up_to
from server.record.judged import read_finding, unpack
from server.record.tables.columns import FINDING, JUDGED_TO, VERDICT

THEN = "then"
"""The book that judges everything by what was in force when it happened."""


class JudgedReads(Asking):
    """Findings and verdicts as they stand, or as they stood when less was known."""

    def findings(
        self,
        *,
        frame: str | None = None,
        frames: Collection[str] | None = None,
        keys: Collection[str] | None = None,
        known_at: int | None = None,
        book: str = THEN,
    ) -> list[Finding]:
        """Give the findings that stand: of all, of one frame or several, or under some keys."""
        asked = [FINDING.frame == frame] if frame is not None else []
        asked += [FINDING.frame.in_(sorted(frames))] if frames is not None else []
        asked += [FINDING.key.in_(sorted(keys))] if keys is not None else []
        return [finding for _, finding in self._findings(asked, known_at, book)]

    def verdicts_of(self, subject: str, known_at: int | None = None, book: str = THEN) -> tuple[Verdict, ...]:
        """Give every verdict about one subject: findings in full, the rest with word, value and limit."""
        found = self._verdicts([VERDICT.subject == subject], [FINDING.about == subject], known_at, book)
        return tuple(verdict for verdicts in found.values() for verdict in verdicts)

    def verdicts_of_frame(
        self, frame: str, known_at: int | None = None, book: str = THEN
    ) -> dict[tuple[str, str], tuple[Verdict, ...]]:
        """Give every verdict about a frame, by subject and level."""
        return self._verdicts([VERDICT.frame == frame], [FINDING.frame == frame], known_at, book)

    def finding_history(self, key: str) -> list[tuple[Finding, bool]]:
        """Give every judging that changed one finding, in order, each with whether it was gone then."""
        columns = (FINDING.verdict, FINDING.frame, FINDING.known_at, FINDING.book, FINDING.gone)
        asked = select(*columns).where(FINDING.key == key).order_by(FINDING.number)
        return [(read_finding(*rest), gone) for *rest, gone in self._connection.execute(asked)]

    def judged_to(self, book: str = THEN) -> int:
        """Give the position up to which everything has been judged under a book."""
        furthest = select(func.max(JUDGED_TO.position)).where(JUDGED_TO.book == book)
        return self._connection.execute(furthest).scalar() or 0

    def _findings(
        self, asked: list[ColumnElement[bool]], known_at: int | None, book: str
    ) -> list[tuple[str, Finding]]:
        rows = and_(FINDING.book == book, FINDING.known_at <= up_to(known_at), *asked)
        newest = select(func.max(FINDING.number)).where(rows).group_by(FINDING.key)
        columns = (FINDING.about, FINDING.verdict, FINDING.frame, FINDING.known_at, FINDING.book)
        standing = select(*columns).where(FINDING.number.in_(newest), FINDING.gone.is_(False)).order_by(FINDING.key)
        return [(about, read_finding(*rest)) for about, *rest in self._connection.execute(standing)]

    def _verdicts(
        self,
        asked: list[ColumnElement[bool]],
        asked_findings: list[ColumnElement[bool]],
        known_at: int | None,
        book: str,
    ) -> dict[tuple[str, str], tuple[Verdict, ...]]:
        findings: dict[str, list[Verdict]] = {}
        for about, finding in self._findings(asked_findings, known_at, book):
            findings.setdefault(about, []).append(finding.verdict)
        rows = and_(VERDICT.book == book, VERDICT.known_at <= up_to(known_at), *asked)
        newest = select(func.max(VERDICT.number)).where(rows).group_by(VERDICT.subject, VERDICT.level)
        standing = select(VERDICT.subject, VERDICT.level, VERDICT.packed).where(VERDICT.number.in_(newest))
        return {
            (subject, level): unpack(subject, words, findings.get(subject, ()))
            for subject, level, words in self._connection.execute(standing.order_by(VERDICT.number))
        }
