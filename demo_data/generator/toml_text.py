"""Writes tables as TOML text, so that a person can read what the generator made."""

import json
from collections.abc import Iterable, Mapping
from typing import Any

BARE = "bare:"
"""Marks text that is written without quotes: figures, days, moments."""


def tables(opening: str, rows: Iterable[tuple[str, Mapping[str, Any]]]) -> str:
    """Give the text of a file: a sentence on top, then one table after another."""
    parts = [f"# {opening}\n"]
    for table, row in rows:
        fields = "".join(f"{name} = {_written(value)}\n" for name, value in row.items() if value is not None)
        parts.append(f"[[{table}]]\n{fields}")
    return "\n".join(parts)


def _written(value: Any) -> str:
    if isinstance(value, str):
        return value.removeprefix(BARE) if value.startswith(BARE) else json.dumps(value, ensure_ascii=False)
    if isinstance(value, Mapping):
        return "{ " + ", ".join(f"{name} = {_written(inner)}" for name, inner in value.items()) + " }"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(map(_written, value)) + "]"
    return json.dumps(value)
