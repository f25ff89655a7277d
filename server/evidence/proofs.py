"""Whether a proof holds: that a leaf is in a tree, that one tree begins with another; needs only the proof itself."""

from collections.abc import Sequence

from server.evidence.leaves import node_hash

_WIDTH = 32


def inclusion_holds(leaf: bytes, index: int, size: int, path: Sequence[bytes], root: bytes) -> bool:
    """Say whether the path leads from the leaf hash at `index`, counted from 0, to the root (RFC 9162, 2.1.3.2)."""
    if not 0 <= index < size or not _are_hashes(leaf, root, *path):
        return False
    at, last, reached = index, size - 1, leaf
    for step in path:
        if last == 0:
            return False
        if at & 1 or at == last:
            reached = node_hash(step, reached)
            at, last = _up_to_right_child(at, last)
        else:
            reached = node_hash(reached, step)
        at, last = at >> 1, last >> 1
    return last == 0 and reached == root


def consistency_holds(older: int, newer: int, path: Sequence[bytes], older_root: bytes, newer_root: bytes) -> bool:
    """Say whether the newer tree begins with all leaves of the older one, in their order (RFC 9162, 2.1.4.2)."""
    if older == newer:
        return older > 0 and not path and older_root == newer_root
    if not 0 < older < newer or not _are_hashes(older_root, newer_root, *path):
        return False
    # A power of two is a complete subtree: the older root itself is the first step.
    steps = [older_root, *path] if older.bit_count() == 1 else list(path)
    return bool(path) and _lead_to_both(older - 1, newer - 1, steps) == (older_root, newer_root)


def _lead_to_both(at: int, last: int, steps: list[bytes]) -> tuple[bytes, bytes] | None:
    """Follow the steps to the roots of both trees; none when there are too many or too few."""
    while at & 1:
        at, last = at >> 1, last >> 1
    older = newer = steps[0]
    for step in steps[1:]:
        if last == 0:
            return None
        if at & 1 or at == last:
            older, newer = node_hash(step, older), node_hash(step, newer)
            at, last = _up_to_right_child(at, last)
        else:
            newer = node_hash(newer, step)
        at, last = at >> 1, last >> 1
    return (older, newer) if last == 0 else None


def _up_to_right_child(at: int, last: int) -> tuple[int, int]:
    """Skip the levels at which the rightmost node has no neighbour and is carried up as it is."""
    while at and not at & 1:
        at, last = at >> 1, last >> 1
    return at, last


def _are_hashes(*values: bytes) -> bool:
    return all(len(value) == _WIDTH for value in values)
