"""The two hashes of an RFC 9162 tree, never to be mistaken for each other: what was recorded, and what lies above."""

from hashlib import sha256

EMPTY_ROOT = sha256(b"").digest()


def leaf_hash(line: bytes) -> bytes:
    """Hash the recorded bytes as a leaf: SHA-256 of 0x00 and the bytes."""
    return sha256(b"\x00" + line).digest()


def node_hash(left: bytes, right: bytes) -> bytes:
    """Hash two neighbours into what lies above them: SHA-256 of 0x01, the left and the right."""
    return sha256(b"\x01" + left + right).digest()
