"""The right edge of a tree: all that must be remembered to append a leaf and to know the root."""

from collections.abc import Iterable
from functools import reduce

from server.evidence.leaves import EMPTY_ROOT, node_hash


class Frontier:
    """The roots of the complete subtrees of `size` leaves, largest first: one for each bit set in the size."""

    __slots__ = ("_peaks", "size")

    def __init__(self, size: int = 0, peaks: Iterable[bytes] = ()) -> None:
        """Start empty, or go on from the size and peaks that were kept."""
        self._peaks = list(peaks)
        self.size = size
        if size < 0 or len(self._peaks) != size.bit_count():
            raise ValueError(f"size {size} has {len(self._peaks)} peaks; expected one for each bit set in the size")

    @property
    def peaks(self) -> tuple[bytes, ...]:
        """What to keep beside the size, to go on later without reading every leaf again."""
        return tuple(self._peaks)

    def append(self, leaf: bytes) -> None:
        """Put one leaf hash behind the last, closing the subtrees it completes."""
        peaks, carried, size = self._peaks, leaf, self.size
        while size & 1:
            carried = node_hash(peaks.pop(), carried)
            size >>= 1
        peaks.append(carried)
        self.size += 1

    def root(self) -> bytes:
        """Give the RFC 9162 root of all leaves so far."""
        return reduce(lambda right, left: node_hash(left, right), reversed(self._peaks)) if self._peaks else EMPTY_ROOT

    def copy(self) -> "Frontier":
        """Give a second frontier, for leaves that may yet be taken back with their transaction."""
        return Frontier(self.size, self._peaks)
