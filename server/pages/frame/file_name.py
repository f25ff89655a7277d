"""What a file handed out is called: plain letters of what it is about, whatever that is called in the record."""

import re

_LONGEST = 80


def plain_name(text: str) -> str:
    """Keep what every disk and every header takes, and put `_` for the rest; it never begins with a point.

    >>> plain_name('SW-1/../"x"')
    'SW-1____x_'
    """
    plain = re.sub(r"\.{2,}|[^A-Za-z0-9._-]", "_", text)[:_LONGEST].lstrip(".")
    return plain or "_"
