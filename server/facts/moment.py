"""A moment is whole milliseconds since 1970 in UTC inside the house, and ISO 8601 text with a Z at its edges."""

import re
from datetime import UTC, datetime
from functools import lru_cache

_ISO = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,3})?Z").fullmatch
_read = datetime.fromisoformat
_MS_PER_MINUTE = 60_000
_REMEMBERED = 8192


def parse_moment(text: str) -> int:
    """Read `2025-03-18T12:05:00.000Z` as milliseconds since 1970 [ms, UTC].

    >>> parse_moment("1970-01-01T00:00:01.500Z")
    1500
    """
    if not isinstance(text, str) or not _ISO(text):
        raise _no_moment(text)
    return kept_moment(text)


def kept_moment(text: str) -> int:
    """Read a moment that was written as one, without asking again whether it is [ms, UTC].

    >>> kept_moment("1970-01-01T00:00:01.500Z")
    1500
    """
    return round(_read(text).timestamp() * 1000)


def show_moment(moment_ms: int) -> str:
    """Write milliseconds since 1970 [ms, UTC] as ISO text with milliseconds.

    >>> show_moment(1500)
    '1970-01-01T00:00:01.500Z'
    """
    minute, rest_ms = divmod(moment_ms, _MS_PER_MINUTE)
    return f"{_shown_minute(minute)}:{rest_ms // 1000:02d}.{rest_ms % 1000:03d}Z"


# What is told together happened in the same minute.
@lru_cache(_REMEMBERED)
def _shown_minute(minute: int) -> str:
    return datetime.fromtimestamp(minute * 60, UTC).strftime("%Y-%m-%dT%H:%M")


def _no_moment(value: object) -> ValueError:
    return ValueError(f"{value!r} is not a moment; write UTC as 2025-03-18T12:05:00Z")
