"""Which JSON values may be sealed: text, whole numbers below 2^53, true, false, null, lists and objects; no floats."""

from typing import NamedTuple, TypeAlias

from server.evidence.refusals import LineRefused

JsonValue: TypeAlias = "str | int | bool | list[JsonValue] | dict[str, JsonValue] | None"

MOST_LEVELS = 32
LARGEST = 2**53
_Path = tuple[str | int, ...]


class Unfit(NamedTuple):
    """What the parser leaves where a value may not be sealed, so that the walk can name its path."""

    text: str
    expected: str


def in_canonical_order(value: object, path: _Path = ()) -> JsonValue:
    """Give the same value with every object's names in RFC 8785 order; refuse, by path, what may not be sealed."""
    if value is None:
        return value
    if isinstance(value, str):
        return _whole_text(value, path)
    if isinstance(value, int):
        return _exact(value, path)
    if len(path) >= MOST_LEVELS:
        raise LineRefused(_shown_path(path), "a deeper level", f"at most {MOST_LEVELS} levels of lists and objects")
    if isinstance(value, dict):
        return {name: in_canonical_order(value[name], (*path, name)) for name in _names_in_order(value, path)}
    if isinstance(value, list) or type(value) is tuple:
        return [in_canonical_order(item, (*path, number)) for number, item in enumerate(value)]
    raise _unfit(value, path)


def _whole_text(text: str, path: _Path) -> str:
    if not text.isascii():
        try:
            text.encode()
        except UnicodeEncodeError:
            raise LineRefused(_shown_path(path), text, "text without half of a surrogate pair") from None
    return text


def _exact(number: int, path: _Path) -> int:
    if not -LARGEST < number < LARGEST:
        raise LineRefused(_shown_path(path), "a whole number of 2^53 or more", "a smaller one, or the digits as text")
    return number


def _names_in_order(members: dict[object, object], path: _Path) -> list[str]:
    names = [_name(name, path) for name in members]
    if all(map(str.isascii, names)):
        return sorted(names)
    # RFC 8785 orders names by their UTF-16 code units, which differs from code points beyond U+FFFF.
    return sorted(names, key=lambda name: name.encode("utf-16-be"))


def _name(name: object, path: _Path) -> str:
    if not isinstance(name, str):
        raise LineRefused(_shown_path(path), name, "text as the name of a member")
    return _whole_text(name, path)


def _unfit(value: object, path: _Path) -> LineRefused:
    if isinstance(value, Unfit):
        return LineRefused(_shown_path(path), value.text, value.expected)
    if isinstance(value, float):
        return LineRefused(_shown_path(path), value, f'a measured value as text, such as "{value}"')
    return LineRefused(_shown_path(path), value, "text, a whole number, true, false, null, a list or an object")


def _shown_path(path: _Path) -> str:
    """Write where a value stands.

    >>> _shown_path(("values", 2, "amps"))
    'values[2].amps'
    """
    return "".join(map(_shown_step, path)).removeprefix(".") or "the whole line"


def _shown_step(step: str | int) -> str:
    # An odd name is shown escaped, so that a refusal is always one line that can be sent.
    return f".{step}" if isinstance(step, str) and step.isprintable() else f"[{step!r}]"
