"""Figures that only move with their design are reckoned once, since a sheet is fetched every minute."""

from collections.abc import Callable, Hashable
from typing import Any, TypeVar

_MOST_KEPT = 512
Found = TypeVar("Found")
_kept: dict[Hashable, Any] = {}


def reckoned(key: Hashable, reckon: Callable[[], Found]) -> Found:
    """Give what was reckoned for this key, or reckon it now."""
    if key not in _kept:
        if len(_kept) >= _MOST_KEPT:
            _kept.clear()
        _kept[key] = reckon()
    found: Found = _kept[key]
    return found
