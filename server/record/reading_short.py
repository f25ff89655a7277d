"""The question for every standing finding in short, and for some of them in full by the rows they stand in."""

from collections.abc import Collection, Iterable
from functools import lru_cache

from sqlalchemy import func, select

from server.facts.finding import Finding
from server.facts.judged import Severity, Word
from server.record.asking import Asking
from server.record.findings_short import Change, Groups, ShortFinding, with_changes
from server.record.judged import read_finding
from server.record.reading_judged import THEN
from server.record.tables.columns import FINDING

_SHORT = select(
    FINDING.number, FINDING.key, FINDING.frame, FINDING.question, FINDING.word, FINDING.severity, FINDING.gone,
    FINDING.verdict, FINDING.known_at, FINDING.book,
).where(FINDING.book == THEN).order_by(FINDING.number)  # fmt: skip
_FULL = select(FINDING.verdict, FINDING.frame, FINDING.known_at, FINDING.book)
_AT_ONCE = 10_000
_MOST_KEPT = 4096
"""What is open is asked for again and again; a row is never changed."""
_WORDS = {each.value: each for each in Word}
_SEVERITIES = {each.value: each for each in Severity}


class ShortReads(Asking):
    """Findings where there are too many to read them all."""

    def findings_short(self) -> Groups:
        """Give every finding that stands, by question and whether it gates; the writer's own turn reads them anew."""
        last = self._connection.execute(select(func.max(FINDING.number))).scalar() or 0
        known = None if self._kept is not None else self._remembered.findings.up_to(last, self._read_short)
        return with_changes({}, self._read_short(0, last)) if known is None else known

    def findings_at(self, numbers: Collection[int]) -> list[Finding]:
        """Give the findings that stand in some rows, in the order of their keys."""
        wanted = sorted(numbers)
        found: list[Finding] = []
        for first in range(0, len(wanted), _AT_ONCE):
            some = wanted[first : first + _AT_ONCE]
            asked = _FULL.where(FINDING.number.in_(some))
            found += [_in_full(*row) for row in self._connection.execute(asked)]
        return sorted(found, key=_key)

    def _read_short(self, after: int, last: int) -> Iterable[Change]:
        asked = _SHORT.where(FINDING.number > after, FINDING.number <= last)
        for number, key, frame, question, word, severity, gone, *verdict in self._connection.execute(asked):
            text, known_at, book = verdict
            of_it = _WORDS[word], _SEVERITIES[severity]
            digest = None if gone or of_it[0] is Word.MARGINAL else read_finding(text, frame, known_at, book).digest
            yield Change(ShortFinding(number, key, frame, question, *of_it, digest), gone)


@lru_cache(_MOST_KEPT)
def _in_full(text: str, frame: str | None, known_at: int, book: str) -> Finding:
    return read_finding(text, frame, known_at, book)


def _key(finding: Finding) -> str:
    return finding.key
