"""Proves that a person is who they say: a PIN or pass phrase, peppered and kept as an Argon2id hash."""

import hashlib
import hmac

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

from server.work.refusal import Refusal
from server.work.worn_pins import worn_why

# 19 MiB, two passes, one lane: the least the OWASP password storage sheet allows for Argon2id.
_HASHER = PasswordHasher(time_cost=2, memory_cost=19 * 1024, parallelism=1)
PIN_DIGITS = 6
PHRASE_LEAST = 12
PHRASE_MOST = 200
_WEIGHED = 72
_LEAST_SCORE = 3
_HOUSE_WORDS = ("strawline", "passphrase", "titanium", "welding")


class SecretTooWeak(Refusal):
    """A PIN or pass phrase that will not do, and what would."""


def hash_secret(secret: str, pepper: bytes = b"") -> str:
    """Hash a secret for keeping; takes some 30 ms on purpose. In front stands which pepper went in, if one did."""
    return f"{_mark(pepper)}{_HASHER.hash(_peppered(secret, pepper))}"


def proves(secret: str, kept: str, pepper: bytes = b"") -> bool:
    """Tell whether a secret is the one kept as this hash; one kept before there was a pepper has none in it."""
    mark, dollar, rest = kept.partition("$")
    try:
        return mark in ("", _mark(pepper)) and _HASHER.verify(dollar + rest, _peppered(secret, pepper if mark else b""))
    except (VerificationError, InvalidHashError):
        return False


def other_pepper(kept: str, pepper: bytes) -> bool:
    """Tell whether a hash was kept with a pepper that is not there any more, so that nothing fits it."""
    return kept.partition("$")[0] not in ("", _mark(pepper))


def outdated(kept: str, pepper: bytes = b"") -> bool:
    """Tell whether a secret would be kept otherwise today: with the pepper, or with other parameters of the hash."""
    mark, dollar, rest = kept.partition("$")
    return mark != _mark(pepper) or _HASHER.check_needs_rehash(dollar + rest)


def _mark(pepper: bytes) -> str:
    return f"pepper-{hashlib.sha256(pepper).hexdigest()[:12]}" if pepper else ""


def _peppered(secret: str, pepper: bytes) -> str:
    return hmac.new(pepper, secret.encode(), "sha256").hexdigest() if pepper else secret


def good_pin(pin: str, person: str = "") -> str:
    """Give the PIN back if it will do; raises `SecretTooWeak`."""
    if len(pin) != PIN_DIGITS or not pin.isdecimal() or not pin.isascii():
        given = f"{len(pin)} characters" + ("" if pin.isdecimal() else ", not all of them digits")
        raise SecretTooWeak(f"PIN: {PIN_DIGITS} digits are expected; what was given has {given}")
    if why := worn_why(pin, person):
        raise SecretTooWeak(f"PIN: that one is among the first anybody would try, since {why}; choose another")
    return pin


def good_phrase(phrase: str, own_words: tuple[str, ...] = ()) -> str:
    """Give the pass phrase back if it will do; raises `SecretTooWeak`."""
    if len(phrase) < PHRASE_LEAST:
        raise SecretTooWeak(f"Pass phrase: at least {PHRASE_LEAST} characters; what was given has {len(phrase)}")
    if len(phrase) > PHRASE_MOST:
        raise SecretTooWeak(f"Pass phrase: at most {PHRASE_MOST} characters; what was given has {len(phrase)}")
    # Its lists take their time to load, and only a new phrase is weighed.
    from zxcvbn import zxcvbn

    weighed = zxcvbn(phrase[:_WEIGHED], user_inputs=[*_HOUSE_WORDS, *own_words])
    if weighed["score"] < _LEAST_SCORE:
        raise SecretTooWeak("Pass phrase: that is among the first anybody would try; take four words nobody expects")
    return phrase
