"""How long the record's reads take beside hand-written SQL that gives the same, in the same run.

    python -m tests.benchmarks.read_speed /tmp/big

The folder was made by `big_record`. The floor is plain `sqlite3` with one statement a question, whose rows become the
same nouns by the same readers; what it costs to have the bare rows alone is told beside it.
"""

import sqlite3
import sys
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from statistics import median
from time import process_time
from typing import Any, NamedTuple

from server.facts.frame_papers import packets_of_design
from server.facts.log import LOG_ENTRY
from server.record.book_of_lines import Record
from server.record.judged import read_finding, unpack
from server.record.reads import Reads
from tests.benchmarks.page_speed import FRAME, JOINT

_ENTRIES = "SELECT body FROM line WHERE kind = 'entry' AND state = 'taken' AND frame = ? ORDER BY position"
_FINDINGS = (
    "SELECT verdict, frame, known_at, book FROM finding f WHERE frame = ? AND book = 'then' AND gone = 0 AND "
    "NOT EXISTS (SELECT 1 FROM finding l WHERE l.key = f.key AND l.book = f.book AND l.number > f.number) ORDER BY key"
)
_VERDICTS = (
    "SELECT subject, level, packed FROM verdict v WHERE frame = ? AND book = 'then' AND NOT EXISTS (SELECT 1 FROM "
    "verdict l WHERE l.subject = v.subject AND l.level = v.level AND l.book = v.book AND l.number > v.number)"
)


class Question(NamedTuple):
    """One question in words, as the record answers it, and by hand: its rows, and what becomes of them."""

    words: str
    asked: Callable[[Reads], Any]
    rows: Callable[[sqlite3.Connection], list[Any]]
    made: Callable[[list[Any]], Any]


def questions(sisters: list[str], keys: list[int]) -> Iterator[Question]:
    """Give the questions the pages of one frame ask, and the two that run over all frames."""
    marks = ", ".join("?" * len(sisters))
    passes = f"SELECT body FROM line WHERE kind = 'entry' AND state = 'taken' AND frame IN ({marks}) AND "
    passes += "entry_kind = 'pass' AND instr(body, ?) ORDER BY position"
    numbers = f"SELECT verdict, frame, known_at, book FROM finding WHERE number IN ({', '.join('?' * len(keys))})"
    yield Question("a frame's entries", lambda reads: reads.frame_entries(FRAME),
                   lambda hand: hand.execute(_ENTRIES, [FRAME]).fetchall(), _nouns)  # fmt: skip
    yield Question("a frame's findings", lambda reads: reads.findings(frame=FRAME),
                   lambda hand: hand.execute(_FINDINGS, [FRAME]).fetchall(), _findings)  # fmt: skip
    yield Question("a frame's verdicts", lambda reads: reads.verdicts_of_frame(FRAME),
                   lambda hand: hand.execute(_VERDICTS, [FRAME]).fetchall(), _verdicts)  # fmt: skip
    yield Question("one joint's passes on 100 sister frames", lambda reads: reads.passes_of(sisters, (JOINT,)),
                   lambda hand: hand.execute(passes, [*sisters, JOINT.encode()]).fetchall(), _nouns)  # fmt: skip
    yield Question(f"{len(keys)} findings by their rows", lambda reads: reads.findings_at(keys),
                   lambda hand: hand.execute(numbers, keys).fetchall(), _findings)  # fmt: skip


def _nouns(rows: list[Any]) -> list[Any]:
    return [LOG_ENTRY.validate_json(body) for (body,) in rows]


def _findings(rows: list[Any]) -> list[Any]:
    return [read_finding(*row) for row in rows]


def _verdicts(rows: list[Any]) -> list[Any]:
    return [unpack(subject, packed) for subject, _, packed in rows]


class Measured(NamedTuple):
    """What one question took, in the middle of some rounds [s]: asked of the record, by hand, and the bare rows."""

    asked_s: float
    by_hand_s: float
    rows_s: float
    rows: int


def measured(reads: Reads, hand: sqlite3.Connection, question: Question, rounds: int = 15) -> Measured:
    """Ask in turns, so that what else the machine does meets all three alike."""
    taken: list[tuple[float, float, float]] = []
    for _ in range(rounds + 1):
        began = process_time()
        question.asked(reads)
        asked = process_time()
        rows = question.rows(hand)
        bare = process_time()
        question.made(rows)
        taken.append((asked - began, process_time() - asked, bare - asked))
    asked_s, by_hand_s, rows_s = map(median, zip(*taken[1:], strict=True))
    return Measured(asked_s, by_hand_s, rows_s, len(rows))


def _open_rows(reads: Reads) -> list[int]:
    every = [each.number for (_, gates), found in reads.findings_short().items() if gates for each in found.values()]
    return sorted(every)[:2000]


def main(folder: Path) -> None:
    """Print the table for the measurements page."""
    file = folder / "record.sqlite3"
    opened = Record.open(f"sqlite:///{file}", folder)
    with closing(opened) as record, closing(sqlite3.connect(file)) as hand, record.reads() as reads:
        registers = reads.registers()
        design = registers.packets[FRAME].design
        sisters = [each.frame for each in packets_of_design(registers, design)][:100]
        print("| question | rows | by the record [ms] | by hand [ms] | times | bare rows [ms] |")
        print("|---|---:|---:|---:|---:|---:|")
        for each in questions(sisters, _open_rows(reads)):
            found = measured(reads, hand, each)
            asked, by_hand, rows = (1000 * took for took in found[:3])
            times = asked / by_hand
            print(f"| {each.words} | {found.rows} | {asked:.1f} | {by_hand:.1f} | {times:.2f} | {rows:.1f} |")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
