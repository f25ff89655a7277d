"""A demo shop written, read and judged: what it was found to hold, beside what was planted in it."""

import gc
import json
from collections.abc import Collection, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cached_property
from pathlib import Path

from demo_data.generator.cards import shown_cards
from demo_data.generator.elsewhere import VERSIONS
from demo_data.generator.folder import write_shop
from server.facts.judged import Verdict
from server.judgement.book import RULES, THEN, Book
from server.work.joint_causes import causes_from
from server.work.shares_cause import QUESTION as SHARES_CAUSE
from tests.demo_data.against_truth import FLAGGED, Against, Found, Row, against
from tests.demo_data.known_by_folder import KnownByFolder, known_by_folder

QUESTIONS = frozenset({rule.id for rule in RULES} | {SHARES_CAUSE})


@dataclass
class JudgedShop:
    """A shop folder with everything it makes known."""

    folder: Path
    known: KnownByFolder

    @property
    def zone(self) -> str:
        """The shop's own time zone."""
        shop = self.known.registers.shop
        assert shop is not None
        return shop.zone

    def today(self) -> Book:
        """Give the book that holds everything against what is in force on the day of the last arrival."""
        last = max(each.received_ms for each in self.known.clocks)
        return Book("today", on=datetime.fromtimestamp(last / 1000, UTC).date())

    @property
    def frames(self) -> frozenset[str]:
        """Every frame of the shop."""
        return frozenset(self.known.registers.packets)

    def touched(self, book: Book) -> frozenset[str]:
        """Give the frames that an incident, a decoy or something only this book finds is about; other chance aside."""
        rows = (*self.rows("truth"), *self.rows("decoys"))
        only_here = book.name if book.on else ""
        return self.frames & {_frame(row) for row in rows if row["incident"] != "chance" or row["book"] == only_here}

    def against(self, book: Book, frames: frozenset[str] | None = None) -> Against:
        """Judge by a book and hold it against the tables; today's book finds what the book of then found, and more."""
        judged = self.frames if frames is None else frames
        left_out = self.frames - judged
        truth = [row for row in self.rows("truth") if (book.on or row["book"] == book.name)]
        decoys = [row for row in self.rows("decoys") if row["book"] == book.name]
        asked = [row for row in truth if _frame(row) not in left_out]
        return against(self.found(book, judged), asked, decoys, QUESTIONS, self.zone)

    def found(self, book: Book, frames: frozenset[str]) -> list[Found]:
        """Give every finding: of the judging, and of each claim's question what else rests on its cause."""
        with _no_collecting():
            return found_of((*self.known.judged(book, frames), *self.sharing))

    def rows(self, table: str) -> list[Row]:
        """Read one of the tables beside the shop."""
        lines = (self.folder / f"{table}.jsonl").read_text(encoding="utf-8").splitlines()
        return [json.loads(line) for line in lines]

    @cached_property
    def sharing(self) -> tuple[Verdict, ...]:
        """Give what else rests on the cause of each claim that names a joint."""
        known, of_frame = self.known.known(), self.known.of_frame
        placed = [each for each in self.known.registers.claims.values() if each.joint]
        told = (causes_from(known, each.serial, str(each.joint), of_frame[each.serial], 0) for each in placed)
        return tuple(each.verdict for causes in told for each in causes.sharing)


def _frame(row: Row) -> str:
    return row["subject"].partition("/")[0].partition("@")[0]


def found_of(verdicts: Iterable[Verdict]) -> list[Found]:
    """Give the findings among verdicts: what is outside, and what is unknown."""
    return [
        Found(each.subject, each.question, each.word.value, each.severity.value)
        for each in verdicts
        if each.word.value in FLAGGED
    ]


def written_shop(folder: Path, selection: str, version: str) -> JudgedShop:
    """Write a shop and read it."""
    with _no_collecting():
        write_shop(folder, selection, VERSIONS[version], cards=shown_cards)
        return JudgedShop(folder, known_by_folder(folder))


def compared(folder: Path, version: str, books: Collection[str], whole: Collection[str] = ()) -> dict[str, Against]:
    """Write a telling of the whole shop, read it, judge it by each book (by some of them whole), and compare."""
    shop = written_shop(folder, "full", version)
    by = {name: THEN if name == "then" else shop.today() for name in books}
    return {name: shop.against(book, shop.frames if name in whole else shop.touched(book)) for name, book in by.items()}


@contextmanager
def _no_collecting() -> Iterator[None]:
    """Millions of small things and no rings among them: looking for rings costs a fifth of the time and finds none."""
    gc.disable()
    try:
        yield
    finally:
        gc.enable()
