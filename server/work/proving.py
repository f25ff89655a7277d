"""Proves that a person is who they say: a PIN or pass phrase kept as an Argon2id hash, checked in a thread."""

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

from server.work.refusal import Refusal

# 19 MiB, two passes, one lane: the least the OWASP password storage sheet allows for Argon2id.
_HASHER = PasswordHasher(time_cost=2, memory_cost=19 * 1024, parallelism=1)
PIN_DIGITS = 6
PHRASE_LEAST = 12
PHRASE_MOST = 200
_WORN_PINS = frozenset(
    {"000000", "111111", "123456", "654321", "123123", "121212", "112233", "999999", "696969", "012345"}
)


_FEWEST_LETTERS = 5
_WORN_PHRASES = ("password", "passphrase", "qwertyuiop", "letmein", "welcome", "1234567890", "iloveyou", "strawline")


class SecretTooWeak(Refusal):
    """A PIN or pass phrase that will not do, and what would."""


def hash_secret(secret: str) -> str:
    """Hash a secret for keeping; takes some 30 ms on purpose."""
    return _HASHER.hash(secret)


def proves(secret: str, kept: str) -> bool:
    """Tell whether a secret is the one kept as this hash."""
    try:
        return _HASHER.verify(kept, secret)
    except (VerificationError, InvalidHashError):
        return False


def good_pin(pin: str) -> str:
    """Give the PIN back if it will do; raises `SecretTooWeak`."""
    if len(pin) != PIN_DIGITS or not pin.isdecimal() or not pin.isascii():
        raise SecretTooWeak(f"PIN: {PIN_DIGITS} digits are expected; what was given has {len(pin)} characters")
    if pin in _WORN_PINS or len(set(pin)) == 1:
        raise SecretTooWeak("PIN: that one is among the first anybody would try; choose another")
    return pin


def good_phrase(phrase: str) -> str:
    """Give the pass phrase back if it will do; raises `SecretTooWeak`."""
    if len(phrase) < PHRASE_LEAST:
        raise SecretTooWeak(f"Pass phrase: at least {PHRASE_LEAST} characters; what was given has {len(phrase)}")
    if len(phrase) > PHRASE_MOST:
        raise SecretTooWeak(f"Pass phrase: at most {PHRASE_MOST} characters; what was given has {len(phrase)}")
    left_over = phrase.lower()
    for worn in _WORN_PHRASES:
        left_over = left_over.replace(worn, "")
    if len(set(left_over)) < _FEWEST_LETTERS:
        raise SecretTooWeak("Pass phrase: that is among the first anybody would try; take four words nobody expects")
    return phrase
