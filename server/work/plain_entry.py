"""A quick reading of an entry told so plainly that its line needs no closer look, which is nearly every one."""

from collections.abc import Iterable
from types import NoneType
from typing import Any

from pydantic import ValidationError

from server.evidence.sealed_values import LARGEST
from server.facts.log import LOG_ENTRY, AnyEntry
from server.facts.measured import Measured

_ASKS_FOR_A_CLOSER_LOOK = (b"\\u", b"\n", b"\r", b'" ', b'"\t')
"""An escape that may hide half a pair or a known name, a line break, and a name that stands apart from its colon."""

_PLAIN = frozenset({str, bool, NoneType})


def read_plain(body: bytes, most_bytes: int) -> AnyEntry | None:
    """Give the entry of a line that tells each thing once, as the JSON it is to be; none asks for a closer look."""
    if len(body) > most_bytes or any(odd in body for odd in _ASKS_FOR_A_CLOSER_LOOK):
        return None
    try:
        body.decode()
        entry = LOG_ENTRY.validate_json(body, strict=True)
    except (UnicodeDecodeError, ValidationError):
        return None
    # Each name told ends at a quote and a colon, so where there are as many of these as names, none came twice.
    names = _names_in(vars(entry).values())
    return entry if names is not None and len(entry.model_fields_set) + names == body.count(b'":') else None


def _names_in(values: Iterable[Any]) -> int | None:
    """Count the names told within the values of an entry; none where something else than expected stands there."""
    names = 0
    for value in values:
        kind = type(value)
        if kind is dict:
            if not set(map(type, value.values())) <= {Measured}:
                return None
            names += len(value) + sum([len(each.model_fields_set) for each in value.values()])
        elif kind is int:
            if not -LARGEST < value < LARGEST:
                return None
        elif kind not in _PLAIN and not (kind is tuple and set(map(type, value)) <= {str}):
            return None
    return names
