"""The root of a tree straight from RFC 9162's own definition, slow and beyond doubt, to hold the fast ones against."""

from hashlib import sha256

from hypothesis import strategies as st

LEAVES = st.lists(st.binary(min_size=32, max_size=32), max_size=70)


def defined_root(leaves: list[bytes]) -> bytes:
    """MTH of RFC 9162, section 2.1.1, over leaf hashes."""
    if not leaves:
        return sha256().digest()
    if len(leaves) == 1:
        return leaves[0]
    split = max(2**power for power in range(len(leaves)) if 2**power < len(leaves))
    return sha256(b"\x01" + defined_root(leaves[:split]) + defined_root(leaves[split:])).digest()


def numbered_leaves(count: int) -> list[bytes]:
    """Leaf hashes that all differ."""
    return [sha256(b"%d" % number).digest() for number in range(count)]
