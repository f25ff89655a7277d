"""A quick look at a value or a line: is it so plain that nothing needs to be looked for, or is a closer look needed?"""

import json
from collections.abc import Iterable
from types import NoneType

from server.evidence.sealed_values import LARGEST, MOST_LEVELS

_FEW_DIGITS = 15
"""Every whole number with no more digits is below the largest one."""

_LEAVES = frozenset({str, bool, NoneType})


class _Odd(ValueError):
    """Something that needs a closer look."""


def is_plain(value: object, levels: int = MOST_LEVELS) -> bool:
    """Tell that a value is made of what may be sealed, with names that sort alike in every order; a no asks for more.

    Whether its text is whole shows when it is written.
    """
    if type(value) is dict:
        return set(map(type, value)) <= {str} and all(map(str.isascii, value)) and _are_plain(value.values(), levels)
    if type(value) is list or type(value) is tuple:
        return _are_plain(value, levels)
    return type(value) in _LEAVES or (type(value) is int and -LARGEST < value < LARGEST)


def is_plain_line(text: str) -> bool:
    """Tell that a line is JSON without any ambiguity or unfit value; a no asks for a closer look."""
    # Half a surrogate pair can only be written as an escape, and no value is deeper than there are brackets.
    if "\\u" in text or text.count("[") + text.count("{") > MOST_LEVELS:
        return False
    try:
        _LOOKER.decode(text)
    except ValueError:
        return False
    return True


def _are_plain(values: Iterable[object], levels: int) -> bool:
    # Most values are text, for which a call would cost more than the look.
    return levels > 0 and all(is_plain(value, levels - 1) for value in values if type(value) not in _LEAVES)


def _once(members: list[tuple[str, object]]) -> None:
    if len(dict(members)) != len(members):
        raise _Odd


def _whole(text: str) -> None:
    if len(text) > _FEW_DIGITS:
        raise _Odd(text)


def _unfit(text: str) -> None:
    raise _Odd(text)


_LOOKER = json.JSONDecoder(object_pairs_hook=_once, parse_float=_unfit, parse_int=_whole, parse_constant=_unfit)
