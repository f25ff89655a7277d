"""A quick look at a value or a line: is it so plain that nothing needs to be looked for, or is a closer look needed?"""

import json
from collections.abc import Iterable

from server.evidence.sealed_values import LARGEST, MOST_LEVELS

_FEW_DIGITS = 15
"""Every whole number with no more digits is below the largest one."""


class _Odd(ValueError):
    """Something that needs a closer look."""


def is_plain(value: object, levels: int = MOST_LEVELS) -> bool:
    """Tell that a value may be sealed, with names that sort alike in every order; a no asks for a closer look."""
    if type(value) is str:
        return value.isascii() or _is_whole(value)
    if type(value) is int:
        return -LARGEST < value < LARGEST
    if value is None or type(value) is bool:
        return True
    if type(value) is dict:
        return _are_names(value) and _are_plain(value.values(), levels)
    return (type(value) is list or type(value) is tuple) and _are_plain(value, levels)


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
    if not levels:
        return False
    for value in values:
        # Most values are short text, for which a call would cost more than the look.
        if not (type(value) is str and value.isascii()) and not is_plain(value, levels - 1):
            return False
    return True


def _are_names(members: dict[object, object]) -> bool:
    return set(map(type, members)) <= {str} and all(map(str.isascii, members))  # type: ignore[arg-type]


def _is_whole(text: str) -> bool:
    try:
        text.encode()
    except UnicodeEncodeError:
        return False
    return True


def _once(members: list[tuple[str, object]]) -> None:
    if len(dict(members)) != len(members):
        raise _Odd


def _whole(text: str) -> None:
    if len(text) > _FEW_DIGITS:
        raise _Odd(text)


def _unfit(text: str) -> None:
    raise _Odd(text)


_LOOKER = json.JSONDecoder(object_pairs_hook=_once, parse_float=_unfit, parse_int=_whole, parse_constant=_unfit)
