"""A moment is whole milliseconds since 1970 in UTC inside the house, and ISO 8601 text with a Z at its edges."""

import re
from datetime import UTC, datetime

_ISO = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,3})?Z")


def parse_moment(text: str) -> int:
    """Read `2025-03-18T12:05:00.000Z` as milliseconds since 1970 [ms, UTC].

    >>> parse_moment("1970-01-01T00:00:01.500Z")
    1500
    """
    if not isinstance(text, str) or not _ISO.fullmatch(text):
        raise ValueError(f"{text!r} is not a moment; write UTC as 2025-03-18T12:05:00Z")
    stamp = datetime.fromisoformat(text[:-1]).replace(tzinfo=UTC)
    return round(stamp.timestamp() * 1000)


def show_moment(moment_ms: int) -> str:
    """Write milliseconds since 1970 [ms, UTC] as ISO text with milliseconds.

    >>> show_moment(1500)
    '1970-01-01T00:00:01.500Z'
    """
    stamp = datetime.fromtimestamp(moment_ms / 1000, UTC)
    return stamp.strftime("%Y-%m-%dT%H:%M:%S.") + f"{moment_ms % 1000:03d}Z"
