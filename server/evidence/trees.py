"""A whole tree in memory, for proving: roots at any size, that a leaf is in it, that it only ever grew."""

from collections.abc import Iterable

from server.evidence.leaves import EMPTY_ROOT, node_hash

_WIDTH = 32


class Tree:
    """Every complete subtree of the leaves given so far, one row of hashes per level, about 64 bytes for a leaf."""

    def __init__(self, leaves: Iterable[bytes] = ()) -> None:
        self._levels = [bytearray()]
        for leaf in leaves:
            self.append(leaf)

    @property
    def size(self) -> int:
        """How many leaves there are."""
        return len(self._levels[0]) // _WIDTH

    def append(self, leaf: bytes) -> None:
        """Put one leaf hash behind the last."""
        if len(leaf) != _WIDTH:
            raise ValueError(f"a leaf hash of {len(leaf)} bytes; expected {_WIDTH}")
        index, level, carried = self.size, 0, leaf
        self._levels[0] += leaf
        while index & 1:
            carried = node_hash(self._node(level, index - 1), carried)
            index >>= 1
            level += 1
            if level == len(self._levels):
                self._levels.append(bytearray())
            self._levels[level] += carried

    def root(self, size: int | None = None) -> bytes:
        """Give the root as it was when the tree had `size` leaves; of all leaves when no size is named."""
        size = self._known(self.size if size is None else size)
        return self._span(0, size) if size else EMPTY_ROOT

    def inclusion_path(self, index: int, size: int | None = None) -> tuple[bytes, ...]:
        """Prove that leaf `index`, counted from 0, is in the tree of `size` leaves (RFC 9162, 2.1.3)."""
        size = self._known(self.size if size is None else size)
        if not 0 <= index < size:
            raise ValueError(f"leaf {index}; expected 0 to {size - 1}")
        path, low, high = [], 0, size
        while high - low > 1:
            split = _split(low, high)
            if index < split:
                path.append(self._span(split, high))
                high = split
            else:
                path.append(self._span(low, split))
                low = split
        return tuple(reversed(path))

    def consistency_path(self, older: int, newer: int | None = None) -> tuple[bytes, ...]:
        """Prove that the tree of `newer` leaves begins with the tree of `older` leaves (RFC 9162, 2.1.4)."""
        newer = self._known(self.size if newer is None else newer)
        if not 0 < older <= newer:
            raise ValueError(f"an older size of {older}; expected 1 to {newer}")
        path, low, high = [], 0, newer
        while older != high:
            split = _split(low, high)
            if older <= split:
                path.append(self._span(split, high))
                high = split
            else:
                path.append(self._span(low, split))
                low = split
        # The verifier holds the older root already, so it is left out where it would be the first step.
        if low:
            path.append(self._span(low, high))
        return tuple(reversed(path))

    def _known(self, size: int) -> int:
        if not 0 <= size <= self.size:
            raise ValueError(f"a tree of {size} leaves; expected 0 to {self.size}")
        return size

    def _node(self, level: int, index: int) -> bytes:
        return bytes(self._levels[level][index * _WIDTH : (index + 1) * _WIDTH])

    def _span(self, low: int, high: int) -> bytes:
        """Give the root over the leaves from low to before high; low is a multiple of a power of two not below that."""
        level = (high - low).bit_length() - 1
        left = self._node(level, low >> level)
        middle = low + (1 << level)
        return left if middle == high else node_hash(left, self._span(middle, high))


def _split(low: int, high: int) -> int:
    """Find where RFC 9162 parts a span of two leaves or more: behind the largest power of two below its length."""
    return low + (1 << ((high - low - 1).bit_length() - 1))
