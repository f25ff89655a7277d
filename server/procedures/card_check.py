"""One line of a limit card held against a value: one of the five words, and whether the instrument can tell."""

import math
import re
from typing import NamedTuple

from server.facts.judged import Word
from server.facts.limit_card import CardLine
from server.statistics.conformity import conform

# The tablet holds the same cards against the same values in its own script; both run tests/cards/cases.json.
_NUMBER = re.compile(r"-?[0-9]{1,12}(\.[0-9]{1,9})?")
_PART = re.compile(r"([0-9]{1,12}(?:\.[0-9]{1,9})?)( %)?")


class CardAnswer(NamedTuple):
    """The word, whether it is proved, and the standard uncertainty it was judged with; none: not on file."""

    word: Word
    proved: bool
    uncertainty: float | None = None


class NotAValue(ValueError):
    """A value that cannot be held against a line, with what is expected."""


def check_line(line: CardLine, value: str | None, asked: bool = True) -> CardAnswer:
    """Hold one value, as decimal text or as a word, against one line; none: there is no value.

    >>> oxygen = CardLine(name="oxygen", words="oxygen", unit="ppm", high="20", uncertainty="sqrt(1, 5 %)",
    ...                   when="every pass", source="a record", beyond="Do not strike.")
    >>> [check_line(oxygen, ppm).word.value for ppm in ("12", "19", "21")]
    ['within', 'marginal', 'outside']
    """
    if value is None:
        return CardAnswer(Word.UNKNOWN if asked else Word.NOT_ASKED, False)
    if line.allowed:
        within = any(_same(value, each) for each in line.allowed)
        return CardAnswer(Word.WITHIN if within else Word.OUTSIDE, True)
    number = _number(line, value)
    doubt = _doubt(line.uncertainty, number)
    found = conform(number, _bound(line.low), _bound(line.high), doubt)
    return CardAnswer(Word(found.word), found.proved, doubt)


def _doubt(text: str | None, value: float) -> float | None:
    """Read `0.15`, `3 %` or `sqrt(1, 5 %)`; what cannot be read counts as not on file, which is never a pass."""
    parts = (text or "").removeprefix("sqrt(").removesuffix(")").split(", ")
    found = [_PART.fullmatch(part) for part in parts]
    sizes = [float(part[1]) / 100 * abs(value) if part[2] else float(part[1]) for part in found if part]
    if len(sizes) < len(found):
        return None
    return sizes[0] if len(sizes) == 1 else math.sqrt(sum(size * size for size in sizes))


def _number(line: CardLine, value: str) -> float:
    if not _NUMBER.fullmatch(value):
        unit = line.unit or "words"
        raise NotAValue(f"{line.name}: {value!r} is not decimal text; write the value in {unit} as 12.5")
    return float(value)


def _bound(text: str | None) -> float | None:
    return None if text is None else float(text)


def _same(value: str, allowed: str) -> bool:
    if _NUMBER.fullmatch(value) and _NUMBER.fullmatch(allowed):
        return float(value) == float(allowed)
    return value == allowed
