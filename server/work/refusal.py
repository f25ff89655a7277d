"""A refusal in shop words: what was asked, why it is not given, and what to do next."""

from collections.abc import Sequence


class Refusal(Exception):
    """Something a person asked for is not given; `problems` name field, value, what is expected and what to do."""

    def __init__(self, *problems: str) -> None:
        super().__init__("; ".join(problems))
        self.problems: Sequence[str] = problems


class NotSignedIn(Refusal):
    """Nobody is signed in, or the session has ended."""


class NotYours(Refusal):
    """The person signed in does not hold a role this needs."""


class NotThere(Refusal):
    """What was asked for is not in the record."""


class Unreadable(Refusal):
    """What was sent cannot be read as what it should be; nothing was taken."""


def how_short(words: str) -> str:
    """Say of words that are too few what stood there.

    >>> how_short(" "), how_short("so")
    ('empty', "'so' is too short")
    """
    return f"{words.strip()!r} is too short" if words.strip() else "empty"
