"""What a shop folder makes known without a record under it: its papers and entries as the service reads them."""

from collections import defaultdict
from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from server.facts.clock import ClockPair
from server.facts.delivery import Delivery
from server.facts.judged import Verdict
from server.facts.log import LOG_ENTRY, AnyEntry
from server.facts.recorded import Recorded
from server.facts.registers import Registers
from server.judgement.book import Book
from server.judgement.judge import judge_all
from server.occasions.build import Shop
from server.occasions.known import Known
from server.record.entry_lines import columns_of
from server.record.known_registers import carried_on
from server.work.folder_line import FolderLine
from server.work.folder_registers import read_registers
from server.work.shop_folder import ShopFolder

Frames = dict[str, list[Recorded]]


@dataclass
class KnownByFolder:
    """Everything a folder tells, as the record would hold it after its last line."""

    registers: Registers
    shared: list[Recorded] = field(default_factory=list)
    mending: list[Recorded] = field(default_factory=list)
    clocks: list[ClockPair] = field(default_factory=list)
    passes: list[Recorded] = field(default_factory=list)
    photos: list[Recorded] = field(default_factory=list)
    of_frame: Frames = field(default_factory=lambda: defaultdict(list))

    def known(self) -> Known:
        """Give what occasions rest on."""
        return Known(self.registers, (*self.shared, *self.mending), self.clocks, self.passes, self.photos)

    def only(self, left: Callable[[list[Recorded]], list[Recorded]]) -> "KnownByFolder":
        """Give the same with some entries never logged."""
        told = (left(each) for each in (self.shared, self.mending, self.passes, self.photos))
        shared, mending, passes, photos = told
        of_frame = {frame: left(each) for frame, each in self.of_frame.items()}
        return KnownByFolder(self.registers, shared, mending, self.clocks, passes, photos, of_frame)

    def judged(self, book: Book, frames: Collection[str]) -> Iterator[Verdict]:
        """Judge these frames and everything frames share."""
        shop = Shop(self.known(), book.on)
        for frame, packet in self.registers.packets.items():
            if frame in frames:
                yield from judge_all(shop.frame(packet, self.of_frame[frame]), book)
        yield from judge_all(shop.shared(), book)


def known_by_folder(folder: Path) -> KnownByFolder:
    """Read a folder as it would be loaded: each line at its place, were there no seals between."""
    papers: list[tuple[int, bytes]] = []
    sent: list[tuple[int, Delivery]] = []
    for at, told in enumerate(_opened(folder).in_order(), 1):
        if isinstance(told, FolderLine):
            papers.append((at, told.body_at(at - 1)))
        else:
            sent.append((at, told))
    found = KnownByFolder(carried_on(Registers(), papers))
    _Taking(found).take_all(sent)
    return found


def _opened(folder: Path) -> ShopFolder:
    registers, wrong = read_registers(folder)
    assert not wrong
    start = tuple(line for line in registers if line.received_ms is None)
    later = sorted((line for line in registers if line.received_ms is not None), key=lambda line: line.received_ms or 0)
    return ShopFolder(folder, start, tuple(later), 0)


class _Taking:
    """Takes deliveries as the record does: an entry once, a repeat only for what it tells of the clock."""

    def __init__(self, found: KnownByFolder) -> None:
        self._found = found
        self._taken: dict[str, str] = {}
        self._frame_of: dict[str, str | None] = {}
        self._named: list[tuple[Recorded, str]] = []

    def take_all(self, sent: list[tuple[int, Delivery]]) -> None:
        """Take them in their order; what mends an entry that came later goes to its frame at the end."""
        for at, delivery in sent:
            self._take(at, delivery, LOG_ENTRY.validate_json(delivery.line))
        for held, of in self._named:
            if frame := self._frame_of.get(of):
                self._found.of_frame[frame].append(held)

    def _take(self, at: int, delivery: Delivery, entry: AnyEntry) -> None:
        known = self._taken.setdefault(entry.id, delivery.line)
        assert known == delivery.line, "a demo folder holds no refused copies"
        told = columns_of(entry, delivery.device)
        received_ms = delivery.received_at or 0
        if told.get("device_ms") is not None:
            device = (delivery.device, told["boot"], told["seq"], told["mono_ms"], told["device_ms"])
            self._found.clocks.append(ClockPair(*device, delivery.sent_at, received_ms))
        if entry.id not in self._frame_of:
            frame = self._frame_of[entry.id] = told["frame"] or self._frame_of.get(told["of"] or "")
            self._keep(Recorded(at, received_ms, delivery.sent_at, entry), frame, told["of"])

    def _keep(self, held: Recorded, frame: str | None, of: str | None) -> None:
        kind, found = held.entry.kind, self._found
        if frame:
            found.of_frame[frame].append(held)
        else:
            found.shared.append(held)
            if of:
                self._named.append((held, of))
        if frame and kind in ("correction", "trace"):
            found.mending.append(held)
        if kind == "pass":
            found.passes.append(held)
        elif kind == "photo":
            found.photos.append(held)
