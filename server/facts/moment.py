"""A moment is whole milliseconds since 1970 in UTC inside the house, and ISO 8601 text with a Z at its edges."""

import re
from datetime import UTC, datetime
from functools import lru_cache

_ISO = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,3})?Z")
_ISO_DAY = re.compile(r"\d{4}-\d\d-\d\dT")
_DAY_ENDS, _MINUTE_ENDS, _SECOND_ENDS = len("2025-03-18T"), len("2025-03-18T12:05:"), len("2025-03-18T12:05:00")
_MS_PER_DAY, _MS_PER_MINUTE = 86_400_000, 60_000
_REMEMBERED = 8192
# What stands behind the day is one of so few things that all of them are written out.
_SHOWN_MINUTES = [f"{minute // 60:02d}:{minute % 60:02d}:" for minute in range(24 * 60)]
_MINUTES_MS = {shown: minute * _MS_PER_MINUTE for minute, shown in enumerate(_SHOWN_MINUTES)}
_SECONDS_MS = {f"{second:02d}": second * 1000 for second in range(60)}
_REST_MS = {"Z": 0} | {f".{rest_ms:03d}Z": rest_ms for rest_ms in range(1000)}


def parse_moment(text: str) -> int:
    """Read `2025-03-18T12:05:00.000Z` as milliseconds since 1970 [ms, UTC].

    >>> parse_moment("1970-01-01T00:00:01.500Z")
    1500
    """
    try:
        clock_ms = _SECONDS_MS[text[_MINUTE_ENDS:_SECOND_ENDS]] + _REST_MS[text[_SECOND_ENDS:]]
        return _day_ms(text[:_DAY_ENDS]) + _MINUTES_MS[text[_DAY_ENDS:_MINUTE_ENDS]] + clock_ms
    except (KeyError, TypeError, ValueError):
        return _read_closely(text)


def show_moment(moment_ms: int) -> str:
    """Write milliseconds since 1970 [ms, UTC] as ISO text with milliseconds.

    >>> show_moment(1500)
    '1970-01-01T00:00:01.500Z'
    """
    day, clock_ms = divmod(moment_ms, _MS_PER_DAY)
    minute, rest_ms = divmod(clock_ms, _MS_PER_MINUTE)
    return f"{_shown_day(day)}T{_SHOWN_MINUTES[minute]}{rest_ms // 1000:02d}.{rest_ms % 1000:03d}Z"


# What is told together happened on few days.
@lru_cache(_REMEMBERED)
def _day_ms(text: str) -> int:
    if not _ISO_DAY.fullmatch(text):
        raise _no_moment(text)
    return round(datetime.fromisoformat(f"{text}00:00:00Z").timestamp()) * 1000


def _read_closely(text: object) -> int:
    if not isinstance(text, str) or not _ISO.fullmatch(text):
        raise _no_moment(text)
    return round(datetime.fromisoformat(text).timestamp() * 1000)


@lru_cache(_REMEMBERED)
def _shown_day(day: int) -> str:
    return datetime.fromtimestamp(day * 86_400, UTC).strftime("%Y-%m-%d")


def _no_moment(value: object) -> ValueError:
    return ValueError(f"{value!r} is not a moment; write UTC as 2025-03-18T12:05:00Z")
