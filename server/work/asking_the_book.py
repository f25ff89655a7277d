"""Asks the book about frames and about what they share, as known at one record position; its answers come packed."""

from collections.abc import Iterator, Mapping, Sequence
from typing import TypeAlias

from server.facts.judged import Verdict
from server.facts.subject import read_joint_subject
from server.judgement.book import Book
from server.judgement.judge import judge_by_subject
from server.occasions.build import Shop
from server.record.judged import Judged, Said, said_of
from server.record.reads import Reads
from server.work.known_shop import known_shop, shop_at

FRAME, SHARED = "frame", "shared"
"""The two levels that are judged: a frame whole, and everything that frames share."""
Piece: TypeAlias = Sequence[str] | None
"""Some frames; none stands for all that frames share."""


class AskingTheBook:
    """The shop as known at one position, and the book it is held against."""

    def __init__(self, reads: Reads, position: int, book: Book) -> None:
        """Make the shop that is carried on from line to line; held against one day, everything is another."""
        self._reads = reads
        self._position = position
        self._book = book
        self.shop = shop_at(reads, position) if book.on is None else Shop(known_shop(reads, position), book.on)

    def about(self, piece: Piece) -> list[Said]:
        """Give what the book says of some frames, or of what is shared."""
        if piece is None:
            return list(by_subject(judge_by_subject(self.shop.shared(), self._book), SHARED, None))
        packets = self._reads.registers(self._position).packets
        entries = self._reads.frames_entries(piece, self._position)
        said: list[Said] = []
        for frame in piece:
            if packet := packets.get(frame):
                found = judge_by_subject(self.shop.frame(packet, entries[frame]), self._book)
                said += by_subject(found, FRAME, frame)
        return said


def by_subject(found: Mapping[str, Mapping[str, Verdict]], level: str, frame: str | None) -> Iterator[Said]:
    """Pack what was found by subject; what is said of a quarter is kept with its joint."""
    grouped: dict[str, list[Verdict]] = {}
    for subject, verdicts in found.items():
        if verdicts:
            grouped.setdefault(subject.partition(":q")[0], []).extend(verdicts.values())
    for subject, verdicts_on_it in grouped.items():
        yield of_subject(subject, level, frame, verdicts_on_it)


def of_subject(subject: str, level: str, frame: str | None, verdicts: Sequence[Verdict]) -> Said:
    """Pack the verdicts on one subject."""
    joint = read_joint_subject(subject) if frame is None else None
    return said_of(Judged(subject, level, joint.frame if joint else frame, tuple(verdicts)))
