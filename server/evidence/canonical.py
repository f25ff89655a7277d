"""One JSON value, one line of bytes: written as RFC 8785 has it, read without any of JSON's ambiguities."""

import json
from contextlib import suppress

from server.evidence.plain_values import is_plain, is_plain_line
from server.evidence.refusals import LineRefused
from server.evidence.sealed_values import MOST_LEVELS, JsonValue, Unfit, in_canonical_order

MOST_BYTES = 256_000
_MOST_DIGITS = 17
_WHOLE = "the whole line"


def canonical_line(value: object) -> bytes:
    """Write a value as its one canonical line; floats and other unfit values are refused by path.

    >>> canonical_line({"b": "45.0", "a": [1, None]})
    b'{"a":[1,null],"b":"45.0"}'
    """
    if is_plain(value):
        with suppress(UnicodeEncodeError):
            return _SORTING_WRITER.encode(value).encode()
    return _WRITER.encode(in_canonical_order(value)).encode()


def parse_line(line: bytes, most_bytes: int = MOST_BYTES) -> JsonValue:
    """Read one line strictly: no name twice, no float, no NaN, no byte order mark, whole UTF-8, bounded size and depth.

    White space between tokens is let through, so a line that was read need not be canonical: the bytes are the record.

    >>> parse_line(b'{"kind":"pass","amps":"45.0"}')
    {'amps': '45.0', 'kind': 'pass'}
    """
    return _parsed(_decoded(line, most_bytes))


def refuse_unfit(line: bytes, most_bytes: int = MOST_BYTES) -> None:
    """Refuse what `parse_line` refuses, in the same words, without making the value.

    >>> refuse_unfit(b'{"kind":"pass","amps":"45.0"}')
    """
    text = _decoded(line, most_bytes)
    if not is_plain_line(text):
        _parsed(text)


def _parsed(text: str) -> JsonValue:
    try:
        found = _READER.decode(text)
    except RecursionError:
        raise LineRefused(_WHOLE, "nested too deep", f"at most {MOST_LEVELS} levels of lists and objects") from None
    except json.JSONDecodeError as slip:
        near = text[slip.pos : slip.pos + 20] or "the end"
        raise LineRefused(f"character {slip.pos}", near, f"JSON ({slip.msg})") from None
    return in_canonical_order(found)


def _decoded(line: bytes, most_bytes: int) -> str:
    if len(line) > most_bytes:
        raise LineRefused(_WHOLE, f"{len(line)} bytes", f"at most {most_bytes} bytes")
    if line.startswith(b"\xef\xbb\xbf"):
        raise LineRefused(_WHOLE, "a byte order mark", "UTF-8 without a byte order mark")
    if b"\n" in line or b"\r" in line:
        raise LineRefused(_WHOLE, "a line break", "one line; inside text a line break is written \\n")
    try:
        return line.decode()
    except UnicodeDecodeError as slip:
        raise LineRefused(f"byte {slip.start}", line[slip.start : slip.end], "UTF-8") from None


def _float(text: str) -> Unfit:
    return Unfit(text, f'a measured value as text, such as "{text}"')


def _constant(text: str) -> Unfit:
    return Unfit(text, "a measured value as text, or null where there is none")


def _whole(text: str) -> int | Unfit:
    # The length is looked at first: turning a million digits into a number is slow, or refused without a path.
    return int(text) if len(text) <= _MOST_DIGITS else Unfit(text, "a whole number below 2^53, or its digits as text")


def _members(pairs: list[tuple[str, object]]) -> dict[str, object]:
    members: dict[str, object] = {}
    for name, value in pairs:
        members[name] = Unfit("the same name twice", "one value under each name") if name in members else value
    return members


_WRITER = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"))
_SORTING_WRITER = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"), sort_keys=True, check_circular=False)
_READER = json.JSONDecoder(object_pairs_hook=_members, parse_float=_float, parse_int=_whole, parse_constant=_constant)
