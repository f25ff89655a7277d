"""Writes a dossier's entries as CSV, one line to a value, for whoever reckons with them in a sheet."""

import csv
import io
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

_WHERE = ("serial", "joint", "attempt", "position", "id", "at", "what", "who")
COLUMNS = (*_WHERE, "quantity", "value", "unit", "how", "by", "note")


def dossier_csv(told: Mapping[str, Any]) -> str:
    """Give the whole sheet; a text that a sheet could take for a formula is told as text."""
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\r\n")
    rows.writerow(COLUMNS)
    for joint, attempt, entry in _entries(told):
        head = (told["serial"], joint, attempt, *(entry[name] for name in ("position", "id", "at", "what", "who")))
        values: Sequence[Mapping[str, Any]] = entry["values"] or ({},)
        for value in values:
            tail = (value.get(name, "") for name in ("name", "value", "unit", "how", "by"))
            rows.writerow([_harmless(each) for each in (*head, *tail, entry.get("note") or "")])
    return out.getvalue()


def _entries(told: Mapping[str, Any]) -> Iterator[tuple[str, int | str, Mapping[str, Any]]]:
    for entry in told["way"]:
        yield entry.get("joint") or "", "", entry
    for entry in told.get("beside", ()):
        yield "", "", entry
    for joint in told["joints"]:
        for attempt in joint["attempts"]:
            for entry in attempt["entries"]:
                yield joint["joint"], attempt["number"], entry


def _harmless(cell: Any) -> Any:
    return f"'{cell}" if isinstance(cell, str) and cell[:1] in ("=", "+", "-", "@", "\t", "\r") else cell
