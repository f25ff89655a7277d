"""Tells on the screen how far long work is and how long it takes still; in a log, one line for each half minute."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from threading import Event, Lock, Thread
from time import monotonic
from typing import TextIO

_SCREEN_S, _LOG_S, _SURE_S, _AGAIN_S = 0.2, 30.0, 3.0, 1.0
_CLEAR = "\r\x1b[K"


class Telling:
    """Called with what is done, how far it is and of how much; quick work says nothing at all."""

    def __init__(self, out: TextIO, now_s: Callable[[], float] = monotonic) -> None:
        self._out, self._now_s, self._lock = out, now_s, Lock()
        self._screen = out.isatty()
        self._told_s = self._since_s = now_s()
        self._last = ("", 0, 0)
        self._shown = False

    def __call__(self, doing: str, done: int, of: int) -> None:
        """Tell it, unless it was told just now."""
        with self._lock:
            self._tell(doing, done, of)

    def again(self) -> None:
        """Tell the last thing once more, where nothing came since, so that the time beside it goes on."""
        with self._lock:
            if self._last[0] and self._now_s() - self._told_s >= _AGAIN_S:
                self._tell(*self._last)

    def _tell(self, doing: str, done: int, of: int) -> None:
        now_s = self._now_s()
        if doing != self._last[0]:
            self._since_s = now_s
        self._last = (doing, done, of)
        if now_s - self._told_s < (_SCREEN_S if self._screen else _LOG_S):
            return
        self._told_s, self._shown = now_s, True
        text = how_far(doing, done, of, now_s - self._since_s)
        print(f"{_CLEAR}{text}" if self._screen else text, end="" if self._screen else "\n", file=self._out, flush=True)

    def end(self) -> None:
        """Take the line away, so that what was found stands by itself."""
        with self._lock:
            self._last = ("", 0, 0)
            if self._screen and self._shown:
                print(_CLEAR, end="", file=self._out, flush=True)


def how_far(doing: str, done: int, of: int, since_s: float) -> str:
    """Say how far something is.

    >>> how_far("lines", 500_000, 2_000_000, 60)
    'lines: 500,000 of 2,000,000, 25 %, about 3 min more'
    >>> how_far("the file's pages", 0, 0, 75)
    "the file's pages: 1 min so far"
    """
    if not of:
        return f"{doing}: {_lasting(since_s)} so far"
    left = f", about {_lasting(since_s * (of - done) / done)} more" if done and since_s > _SURE_S else ""
    return f"{doing}: {done:,} of {of:,}, {100 * done // of} %{left}"


def _lasting(seconds: float) -> str:
    minutes = round(seconds / 60) if seconds >= 90 else int(seconds / 60)
    return f"{minutes} min" if minutes else f"{int(seconds)} s"


@contextmanager
def telling() -> Iterator[Telling]:
    """Give the telling of one command, on the error output, so that what it found can be read by a program."""
    tells, ended = Telling(sys.stderr), Event()
    Thread(target=_tell_again, args=(tells, ended), daemon=True).start()
    try:
        yield tells
    finally:
        ended.set()
        tells.end()


def _tell_again(tells: Telling, ended: Event) -> None:
    while not ended.wait(_AGAIN_S):
        tells.again()
