"""Figures that only move with their design are reckoned once, since a sheet is fetched every minute."""

import logging
import threading
import time
from collections.abc import Callable, Hashable
from queue import SimpleQueue
from typing import Any, TypeVar

_MOST_KEPT = 512
# Nothing is reckoned beside a sheet somebody waits for; then one figure after the other, with a breath between.
_QUIET_S, _BREATH_S = 2.0, 0.2
_LOG = logging.getLogger(__name__)
Found = TypeVar("Found")
_kept: dict[Hashable, Any] = {}
_asked: SimpleQueue[tuple[Hashable, Callable[[], Any]]] = SimpleQueue()
_waiting: set[Hashable] = set()
_beside: list[threading.Thread] = []
_turn = threading.Lock()
_last_waited_for = [0.0]


def reckoned(key: Hashable, reckon: Callable[[], Found]) -> Found:
    """Give what was reckoned for this key, or reckon it now."""
    if key not in _kept:
        if len(_kept) >= _MOST_KEPT:
            _kept.clear()
        _last_waited_for[0] = time.monotonic()
        _kept[key] = reckon()
    found: Found = _kept[key]
    return found


def reckoned_beside(key: Hashable, reckon: Callable[[], Found]) -> Found | None:
    """Give what was reckoned for this key; what was not yet is reckoned beside, one at a time, and is none until then.

    For figures that take too long for an answer: they stand on the next sheet.
    """
    found: Found | None = _kept.get(key)
    if key in _kept:
        return found
    with _turn:
        if key not in _waiting:
            _waiting.add(key)
            _asked.put((key, reckon))
        if not _beside:
            _beside.append(threading.Thread(target=_go_on, name="reckoning", daemon=True))
            _beside[0].start()
    return None


def is_reckoning() -> bool:
    """Tell whether anything asked for is not reckoned yet."""
    return bool(_waiting)


def _go_on() -> None:
    while True:
        key, reckon = _asked.get()
        time.sleep(_BREATH_S)
        while (quiet_s := time.monotonic() - _last_waited_for[0]) < _QUIET_S:
            time.sleep(_QUIET_S - quiet_s)
        try:
            _kept[key] = reckon()
        except Exception:
            _kept[key] = None
            _LOG.exception("reckoning %s failed; nothing is told of it", key)
        finally:
            with _turn:
                _waiting.discard(key)
