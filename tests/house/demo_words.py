"""The words only the demo shop uses, drawn from its own files."""

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

NAMED_FILES = ("shop", "people", "customers")
CODE_KEYS = ("id", "code", "serial", "serial_prefix")
CODE = re.compile(r"[A-Z]{2,}-\w*|[A-Z]\d{2,}")


def demo_words(folder: Path) -> set[str]:
    """Words of names in the shop's, people's and customers' files, and every code such as a serial's prefix."""
    words: set[str] = set()
    for file in sorted(folder.rglob("*.toml")):
        pairs = list(_pairs(tomllib.loads(file.read_text(encoding="utf-8"))))
        words |= {value for key, value in pairs if key in CODE_KEYS and CODE.fullmatch(value)}
        if file.stem in NAMED_FILES:
            words |= {word for key, value in pairs if key == "name" for word in re.findall(r"[A-Z]\w{3,}", value)}
    return words


def _pairs(value: Any, key: str = "") -> Iterator[tuple[str, str]]:
    if isinstance(value, dict):
        for name, inner in value.items():
            yield from _pairs(inner, name)
    elif isinstance(value, list):
        for inner in value:
            yield from _pairs(inner, key)
    elif isinstance(value, str):
        yield key, value
