"""Judging: occasions in, verdicts out, one per subject and question, the worst of a joint's passes standing for it."""

from collections.abc import Iterable

from server.facts.judged import Verdict, Word
from server.facts.occasion import Occasion
from server.judgement.book import Book


def judge(occasion: Occasion, book: Book) -> list[Verdict]:
    """Give the verdicts on one occasion."""
    return judge_all((occasion,), book)


def judge_all(occasions: Iterable[Occasion], book: Book) -> list[Verdict]:
    """Give the verdicts on many occasions; passes of one joint and attempt answer together."""
    raise LookupError(f"the book {book.name} has no rules yet for {len(tuple(occasions))} occasions ({Word.UNKNOWN})")
