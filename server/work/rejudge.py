"""Judges everything again in one ordered scan, writes only differences, and tells what changed by question."""

from collections import Counter
from typing import NamedTuple

from server.facts.finding import Finding
from server.judgement.book import THEN, Book
from server.record.book_of_lines import Record
from server.work.judging import JudgedSoFar, Progress, judge_everything


class Changed(NamedTuple):
    """What a rejudging changed about one question: findings that are new, gone, or say something else."""

    question: str
    new: int
    gone: int
    other: int


class Rejudged(NamedTuple):
    """How far it went and what changed, question by question; no line where nothing did."""

    so_far: JudgedSoFar
    changed: tuple[Changed, ...]


def rejudge(record: Record, *, book: Book = THEN, progress: Progress | None = None) -> Rejudged:
    """Judge everything again under a book; what stood before stays readable beside what is new."""
    before = _standing(record, book)
    so_far = judge_everything(record, book=book, progress=progress, closely=True)
    after = _standing(record, book)
    return Rejudged(so_far, _differences(before, after))


def _standing(record: Record, book: Book) -> dict[str, Finding]:
    with record.reads() as reads:
        return {finding.key: finding for finding in reads.findings(book=book.name)}


def _differences(before: dict[str, Finding], after: dict[str, Finding]) -> tuple[Changed, ...]:
    new = Counter(after[key].verdict.question for key in after.keys() - before.keys())
    gone = Counter(before[key].verdict.question for key in before.keys() - after.keys())
    both = before.keys() & after.keys()
    other = Counter(after[key].verdict.question for key in both if before[key].digest != after[key].digest)
    questions = sorted({*new, *gone, *other})
    return tuple(Changed(question, new[question], gone[question], other[question]) for question in questions)
