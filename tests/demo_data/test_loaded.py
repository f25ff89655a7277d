"""What a loaded record holds is what the comparison with the answer key judges without one."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from server.facts.judged import Verdict
from server.judgement.book import THEN, Book
from server.record.book_of_lines import Record, now_ms
from server.record.copying import copy_record
from server.work.joint_causes import joint_causes
from server.work.judging import judge_everything
from server.work.load_folder import load_folder
from server.work.shop_folder import read_shop_folder
from tests.demo_data.judged import JudgedShop
from tests.demo_data.known_by_folder import known_by_folder


@pytest.fixture(scope="module")
def in_memory(small: Path) -> JudgedShop:
    return JudgedShop(small, known_by_folder(small))


@pytest.fixture(scope="module")
def data(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("loaded")


@pytest.fixture(scope="module")
def record(small: Path, data: Path) -> Iterator[Record]:
    made = Record.open(f"sqlite:///{data / 'record.sqlite3'}", data)
    load_folder(made, read_shop_folder(small), now_ms())
    yield made
    made.close()


def findings(verdicts: list[Verdict]) -> dict[str, Verdict]:
    return {each.key: each for each in verdicts if each.word not in ("within", "not asked")}


@pytest.mark.parametrize("book", ["then", "today"])
def test_the_record_holds_what_is_judged_without_it(record: Record, in_memory: JudgedShop, book: str):
    """Every finding of the loaded record, word, figure, message and entries, and none more, by either book."""
    by: Book = THEN if book == "then" else in_memory.today()
    judge_everything(record, book=by)
    with record.reads() as reads:
        kept = findings([each.verdict for each in reads.findings(book=by.name)])
    assert kept == findings(list(in_memory.known.judged(by, in_memory.frames)))
    assert len(kept) > 200


def test_the_claim_is_answered_from_the_record(record: Record, in_memory: JudgedShop):
    """The claim's own question, what else rests on its cause, finds the same in the record: eight joints."""
    with record.reads() as reads:
        (claim,) = reads.registers().claims.values()
        sharing = [each.verdict for each in joint_causes(reads, claim.serial, str(claim.joint)).sharing]
    assert sharing == list(in_memory.sharing)
    assert len({each.subject for each in sharing}) == 8


def standing_in(file: Path, words: set[str]) -> set[str]:
    content = file.read_bytes()
    return {word for word in words if word.encode() in content}


def without_the_details(file: Path) -> None:
    with closing(sqlite3.connect(file)) as other:
        other.execute("PRAGMA secure_delete=ON")
        other.execute("DROP TABLE customer_details")


def test_no_customer_stands_anywhere_but_beside_the_lines(record: Record, data: Path, tmp_path: Path):
    """No byte of the lines, the verdicts, the door's tables, the indexes or the free room is a name or an address."""
    with record.reads() as reads:
        customers = reads.registers().customers.values()
    details = {each.name for each in customers} | {each.address for each in customers if each.address}
    assert len(details) > 40
    copy = tmp_path / "copy.sqlite3"
    copy_record(data / "record.sqlite3", copy)
    assert standing_in(copy, details) == details
    without_the_details(copy)
    assert standing_in(copy, details) == set()
    assert standing_in(copy, {"C-01"})
