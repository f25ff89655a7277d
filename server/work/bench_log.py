"""The log as a tablet is told it: entries as they were sent, without what only the record needs."""

import json
from collections.abc import Iterable
from typing import Any

_NOT_TOLD = ("boot", "mono_ms", "device_time", "card", "photo", "machine", "role", "note")


def entries_told(bodies: Iterable[bytes]) -> list[dict[str, Any]]:
    """Give the entries, each once, for the tablet's own reckoning of progress, purge and shift."""
    return [_short(json.loads(body)) for body in bodies]


def _short(entry: dict[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in entry.items() if name not in _NOT_TOLD}
