"""Puts the serials newest first, and finds those with some letters in them in one look through all of them."""

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from itertools import accumulate

from server.facts.looked_up import looked_up
from server.facts.orders import Packet
from server.facts.registers import Registers


class Serials:
    """Packets in an order, found by letters of their serials; the letters asked for are small ones."""

    def __init__(self, packets: Sequence[Packet]) -> None:
        self.packets = packets
        lines = [f"{each.frame.lower()}\n" for each in packets]
        self._text = "".join(lines)
        self._starts = list(accumulate(map(len, lines), initial=0))

    def having(self, letters: str) -> Sequence[Packet]:
        """Give those with these letters in them, in their order."""
        if not letters:
            return self.packets
        if "\n" in letters:
            return [each for each in self.packets if letters in each.frame.lower()]
        return [self.packets[place] for place in self._places(letters)]

    def _places(self, letters: str) -> Iterator[int]:
        at = self._text.find(letters)
        while at >= 0:
            place = bisect_right(self._starts, at) - 1
            yield place
            at = self._text.find(letters, self._starts[place + 1])


def newest_first(registers: Registers) -> Serials:
    """Give the packets by when they were issued."""

    def read() -> Serials:
        in_order = sorted(registers.packets.values(), key=lambda each: (each.issued, each.frame), reverse=True)
        return Serials(in_order)

    return looked_up(registers, "newest first", (registers.packets,), read)
