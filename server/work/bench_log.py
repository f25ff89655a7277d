"""The log as a tablet is told it: entries as they were sent, without what only the record needs."""

import json
from collections.abc import Iterable
from typing import Any

_NOT_TOLD = ("boot", "mono_ms", "device_time", "card", "photo", "machine", "role", "note")
_SHARED = ("cylinder", "sleeve")


def entries_told(bodies: Iterable[bytes]) -> list[dict[str, Any]]:
    """Give the entries, each once, for the tablet's own reckoning of progress, purge and shift."""
    return [_short(json.loads(body)) for body in bodies]


def shared_entries(entries: Iterable[dict[str, Any]]) -> list[dict[str, Any]]:
    """Give the cylinder changes and sleeves in the order they happened, without those withdrawn."""
    told = list(entries)
    withdrawn = {entry["of"] for entry in told if entry["kind"] == "correction" and entry.get("withdraw")}
    found = [entry for entry in told if entry["kind"] in _SHARED and entry["id"] not in withdrawn]
    return sorted(found, key=lambda entry: str(entry["happened"]))


def _short(entry: dict[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in entry.items() if name not in _NOT_TOLD}
