"""Whether the verdicts and findings that stand are as they were kept; they are not sealed, but can be judged again."""

from collections import defaultdict
from collections.abc import Iterator

from sqlalchemy import Connection, func, select

from server.record.judged import ASKED_BY, asked_as, digest_of_kept
from server.record.stored_rows import in_bytes
from server.record.tables.columns import FINDING, VERDICT

_FEW = 20
_MEND = "run `strawline rejudge`, which judges it again from the lines"
_Place = tuple[str, str, str]


def odd_judged(connection: Connection) -> Iterator[str]:
    """Name what was judged and does not fit the digest beside it; one made to fit is found by judging again only."""
    odd = list(_odd(connection))
    yield from odd[:_FEW]
    if len(odd) > _FEW:
        yield f"{len(odd) - _FEW} more verdicts and findings are not as they were kept; {_MEND}"


def _odd(connection: Connection) -> Iterator[str]:
    texts: dict[_Place, dict[str, str]] = defaultdict(dict)
    frames: dict[_Place, set[str | None]] = defaultdict(set)
    for place, frame, text, asked_by in _findings(connection):
        if asked_as(text) != asked_by:
            yield f"the finding {asked_by[0]}: its columns say something else than its text; {_MEND}"
        texts[place][asked_by[0]] = text
        frames[place].add(frame)
    newest = select(func.max(VERDICT.number)).group_by(VERDICT.book, VERDICT.subject, VERDICT.level)
    columns = (VERDICT.book, VERDICT.subject, VERDICT.level, VERDICT.frame, VERDICT.packed, VERDICT.digest)
    for book, subject, level, frame, packed, digest in connection.execute(
        select(*columns).where(VERDICT.number.in_(newest))
    ):
        place = (book, subject, level)
        own = texts.pop(place, {})
        if not _fits(subject, packed, own, in_bytes(digest)) or frames.pop(place, set()) - {frame}:
            yield f"what was judged of {subject} ({level}) is not as it was kept; {_MEND}"
    yield from (f"the finding {key} stands by no verdict; {_MEND}" for own in texts.values() for key in own)


def _fits(subject: str, packed: str, texts: dict[str, str], digest: bytes) -> bool:
    try:
        return digest_of_kept(subject, packed, texts) == digest
    except (LookupError, TypeError, ValueError):
        return False


def _findings(connection: Connection) -> Iterator[tuple[_Place, str | None, str, tuple[str, ...]]]:
    newest = select(func.max(FINDING.number)).group_by(FINDING.book, FINDING.key)
    columns = (FINDING.book, FINDING.about, FINDING.level, FINDING.frame, FINDING.verdict)
    asked = select(*columns, *(FINDING[name] for name in ASKED_BY)).where(FINDING.number.in_(newest))
    for book, about, level, frame, text, *asked_by in connection.execute(asked.where(FINDING.gone.is_(False))):
        yield (book, about, level), frame, text, tuple(asked_by)
