"""A shop folder as read: what was known from the start, and what came later, in the order it came."""

import heapq
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TypeAlias, TypeVar

from server.facts.delivery import Delivery
from server.sheets.complaint import Complaint
from server.work.folder_jsonl import read_deliveries, read_papers
from server.work.folder_line import FolderLine
from server.work.folder_registers import read_registers

Told: TypeAlias = FolderLine | Delivery
Read = TypeVar("Read")


class FolderUnreadable(Exception):
    """The folder cannot be loaded as it stands, and nothing of it was; says everything that is wrong."""

    def __init__(self, complaints: list[Complaint]) -> None:
        self.complaints = tuple(complaints)
        super().__init__("\n".join(map(str, complaints)))


@dataclass(frozen=True)
class ShopFolder:
    """What a folder tells, checked; deliveries are read again line by line when they are told."""

    folder: Path
    from_the_start: tuple[FolderLine, ...]
    later: tuple[FolderLine, ...]
    lines: int

    def in_order(self) -> Iterator[Told]:
        """Give everything in the order the record is to learn it; at the same moment papers come first."""
        yield from self.from_the_start
        yield from heapq.merge(self.later, came_later(self.folder), key=received_ms)


def came_later(folder: Path) -> Iterator[Told]:
    """Give the papers and deliveries of a folder in the order they came; at the same moment papers come first."""
    papers: Iterator[Told] = _only_good(read_papers(folder / "papers.jsonl"))
    sent: Iterator[Told] = _only_good(read_deliveries(folder / "deliveries.jsonl"))
    return heapq.merge(papers, sent, key=received_ms)


def read_shop_folder(folder: Path) -> ShopFolder:
    """Read and check the whole folder; everything wrong in it is raised at once as FolderUnreadable."""
    lines, wrong = read_registers(folder)
    told = 0
    for read, name in ((read_papers, "papers.jsonl"), (read_deliveries, "deliveries.jsonl")):
        for item in read(folder / name):
            told += 1
            if isinstance(item, Complaint):
                wrong.append(item)
    if wrong:
        raise FolderUnreadable(wrong)
    later = sorted((line for line in lines if line.received_ms is not None), key=received_ms)
    start = tuple(line for line in lines if line.received_ms is None)
    return ShopFolder(folder, start, tuple(later), told + len(lines))


def _only_good(items: Iterator[Read | Complaint]) -> Iterator[Read]:
    for item in items:
        if isinstance(item, Complaint):
            raise FolderUnreadable([item])
        yield item


def received_ms(item: Told) -> int:
    """Give when something came [ms, UTC]; what was known from the start came at once."""
    at = item.received_ms if isinstance(item, FolderLine) else item.received_at
    return at or 0
