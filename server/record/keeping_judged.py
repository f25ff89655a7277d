"""Keeps a judging: appends what differs from what stood before under the same book, beside it, and nothing else."""

from collections.abc import Collection, Iterable, Iterator
from typing import Any, NamedTuple, TypeAlias

from sqlalchemy import ColumnElement, Connection, func, insert, or_, select

from server.record.inserting import insert_rows
from server.record.judged import ASKED_BY, Judged, Said, asked_as, read_finding, said_of
from server.record.tables.columns import FINDING, FINDING_TABLE, JUDGED_TO_TABLE, VERDICT, VERDICT_TABLE
from server.record.written import Change

_FEW = 400
NOTHING = "[]"
"""What is packed of a subject about which nothing is asked any more."""
_VERDICT_ROW = ("subject", "level", "frame", "packed", "digest", "known_at", "book")
_FINDING_ROW = (
    "about", "level", "frame", "key", "question", "word", "severity", "gone", "verdict", "known_at", "book",
)  # fmt: skip
_Row: TypeAlias = tuple[Any, ...]
_Texts: TypeAlias = dict[tuple[str, str], dict[str, str]]
"""The findings that stand, as subject and level, then as key and text."""


class _Reach(NamedTuple):
    """What a judging was about: a whole level, all that some frames have on one, or the subjects it names."""

    level: str | None
    frames: Collection[str]
    named: bool

    def about(
        self, subject: ColumnElement[str], level: ColumnElement[str], frame: ColumnElement[str], names: Collection[str]
    ) -> list[ColumnElement[bool]]:
        """Give what limits a question to it; a long list of names is slower than looking at all there are."""
        if not self.named:
            return [level == self.level, *([frame.in_(sorted(self.frames))] if self.frames else ())]
        if len(names) + len(self.frames) > _FEW:
            return []
        return [or_(subject.in_(sorted(names)), frame.in_(sorted(self.frames)))]


class _Standing(NamedTuple):
    subject: str
    level: str
    frame: str | None
    words: str
    digest: bytes


def keep_judged(
    judged: Iterable[Judged],
    known_at: int,
    book: str,
    whole_frames: Collection[str] = (),
    *,
    level: str | None = None,
    whole_level: bool = False,
) -> Change:
    """Pack what a judging said, and keep it."""
    told = [said_of(each) for each in judged]
    return keep_said(told, known_at, book, whole_frames, level=level, whole_level=whole_level)


def keep_said(
    told: Iterable[Said],
    known_at: int,
    book: str,
    whole_frames: Collection[str] = (),
    *,
    level: str | None = None,
    whole_level: bool = False,
    closely: bool = False,
) -> Change:
    """Append the subjects whose verdicts differ, the findings that are new or changed, and those that are gone.

    `whole_frames` were judged whole, so what stood about them and was not judged again is gone; with a `level` only
    what stood on it, and with `whole_level` all that stood on it. What differs is told by the digest beside each row;
    `closely` the rows themselves are compared, since somebody with the file may have altered them and left the digest.
    """
    now = {(each.subject, each.level): each for each in told}
    within = level is not None and all(each.frame in whole_frames for each in now.values())
    reach = _Reach(level, () if whole_level else whole_frames, named=not (whole_level or within))

    def gone(name: tuple[str, str], old: _Standing) -> bool:
        if name in now or (level is not None and old.level != level):
            return False
        return whole_level or old.frame in whole_frames

    def change(connection: Connection) -> int:
        before = _standing(connection, book, reach, {subject for subject, _ in now})
        # Of a subject about which nothing is said, and nothing was, there is nothing to keep.
        said_now = [each for name, each in now.items() if name in before or each.words != NOTHING]
        stood = _standing_findings(connection, book, reach, {subject for subject, _ in now}) if closely else None
        differing = [each for each in said_now if _differs(before, stood, each)]
        differing += [_no_longer(old) for name, old in before.items() if old.words != NOTHING and gone(name, old)]
        changed = {each.subject for each in differing}
        findings = _standing_findings(connection, book, reach, changed) if before and differing else {}
        said = [(*each[:5], known_at, book) for each in differing]
        insert_rows(connection, VERDICT_TABLE, _VERDICT_ROW, said)
        rows = [(*row, known_at, book) for each in differing for row in _finding_rows(each, findings)]
        insert_rows(connection, FINDING_TABLE, _FINDING_ROW, rows)
        return len(differing)

    return change


def _differs(before: dict[tuple[str, str], _Standing], stood: _Texts | None, said: Said) -> bool:
    old = before.get((said.subject, said.level))
    if old is None or old.digest != said.digest:
        return True
    if stood is None:
        return False
    texts = {key: text for key, _, _, _, text in said.findings}
    return (old.words, old.frame) != (said.words, said.frame) or stood.get((said.subject, said.level), {}) != texts


def keep_judged_to(position: int, book: str, now_ms: int) -> Change:
    """Append the watermark: every line up to the position has been judged under the book."""

    def change(connection: Connection) -> None:
        connection.execute(insert(JUDGED_TO_TABLE), {"position": position, "book": book, "judged_ms": now_ms})

    return change


def _standing(
    connection: Connection, book: str, reach: _Reach, subjects: Collection[str]
) -> dict[tuple[str, str], _Standing]:
    about = reach.about(VERDICT.subject, VERDICT.level, VERDICT.frame, subjects)
    newest = select(func.max(VERDICT.number)).where(VERDICT.book == book, *about)
    newest = newest.group_by(VERDICT.subject, VERDICT.level)
    columns = (VERDICT.subject, VERDICT.level, VERDICT.frame, VERDICT.packed, VERDICT.digest)
    found = (_Standing(*row) for row in connection.execute(select(*columns).where(VERDICT.number.in_(newest))))
    return {(each.subject, each.level): each for each in found}


def _standing_findings(connection: Connection, book: str, reach: _Reach, subjects: Collection[str]) -> _Texts:
    about = reach.about(FINDING.about, FINDING.level, FINDING.frame, subjects)
    newest = select(func.max(FINDING.number)).where(FINDING.book == book, *about)
    columns = (FINDING.about, FINDING.level, FINDING.verdict, *(FINDING[name] for name in ASKED_BY))
    asked = select(*columns).where(FINDING.number.in_(newest.group_by(FINDING.key)), FINDING.gone.is_(False))
    # A joint is asked about by its frame and by what frames share; neither judging takes back what the other found.
    found: _Texts = {}
    for about_it, level, verdict, *asked_by in connection.execute(asked):
        # A text whose columns say something else is no text that could be said, so it is kept again.
        text = verdict if asked_as(verdict) == tuple(asked_by) else f"{verdict} "
        found.setdefault((about_it, level), {})[asked_by[0]] = text
    return found


def _no_longer(old: _Standing) -> Said:
    return said_of(Judged(old.subject, old.level, old.frame, ()))


def _finding_rows(said: Said, standing: _Texts) -> Iterator[_Row]:
    named = said[:3]
    before = standing.get(named[:2], {})
    for key, question, word, severity, text in said.findings:
        if before.get(key) != text:
            yield *named, key, question, word, severity, False, text
    found = {each[0] for each in said.findings}
    for key, text in before.items():
        if key in found:
            continue
        old = read_finding(text, said.frame, 0, "").verdict
        yield *named, key, old.question, old.word.value, old.severity.value, True, text
