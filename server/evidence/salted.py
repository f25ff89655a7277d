"""The salted digest of words that may be forgotten: without its salt it proves nothing, not even a right guess."""

import hmac
import secrets
from hashlib import sha256

SALT_BYTES = 32


def fresh_salt() -> bytes:
    """Give 256 random bits, for one telling."""
    return secrets.token_bytes(SALT_BYTES)


def salted_digest(words: bytes, salt: bytes) -> str:
    """Give the HMAC-SHA-256 of some words under a salt, in hex.

    >>> salted_digest(b'{"name":"Ann"}', bytes(32))[:16]
    '591b4d2c5a48a4aa'
    """
    return hmac.new(salt, words, sha256).hexdigest()


def fits(words: bytes, salt: bytes, digest: str) -> bool:
    """Say whether some words are those a digest was made of."""
    return hmac.compare_digest(salted_digest(words, salt), digest)
