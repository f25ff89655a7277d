"""Reads on in a long shop folder in a process of its own, so that lines are read while those before are written."""

import os
import pickle
import signal
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from itertools import islice
from multiprocessing import get_context
from multiprocessing.connection import Connection
from pathlib import Path
from queue import Queue
from threading import Thread
from typing import TypeAlias

from server.facts.delivery import Delivery
from server.work.folder_line import FolderLine
from server.work.sent_delivery import SentDelivery, from_folder
from server.work.shop_folder import FolderUnreadable, ShopFolder, came_later
from server.work.uncollected import uncollected
from server.work.understanding import Understood, understand

ReadTold: TypeAlias = FolderLine | tuple[SentDelivery, Understood]
_WORTH_IT = 12_000
"""A folder of fewer lines is read before another process has started and caught up."""
_WHILE_IT_CATCHES_UP = 1500
"""So many more are read by the loading process itself once the other has started, which skips what was read."""
_HANDED_OVER_AT_ONCE = 400
_STARTED = "started"
_LOTS_AHEAD = 25
"""So many are read while what was read before is kept; a lot takes half a megabyte."""


@contextmanager
def reading_ahead(folder: ShopFolder, now_ms: int) -> Iterator[Iterator[ReadTold]]:
    """Give what papers and deliveries tell, understood, in the order they came, while the block runs."""
    if folder.lines < _WORTH_IT or cores() == 1:
        yield _read(folder.folder, now_ms)
        return
    # A process started anew holds nothing of the record, neither its files nor its threads.
    anew = get_context("spawn")
    here, there = anew.Pipe()
    process = anew.Process(target=_read_on, args=(there, folder.folder, now_ms), daemon=True)
    process.start()
    there.close()
    try:
        with closing(here):
            yield _by_both(here, folder.folder, now_ms)
    finally:
        process.kill()
        process.join()


def cores() -> int:
    """How many this process may use; where the system does not tell that, how many there are."""
    allowed = getattr(os, "sched_getaffinity", None)
    return len(allowed(0)) if allowed else os.cpu_count() or 1


def _read(folder: Path, now_ms: int) -> Iterator[ReadTold]:
    return (_understood(item, now_ms) for item in came_later(folder))


def _understood(item: FolderLine | Delivery, now_ms: int) -> ReadTold:
    if isinstance(item, FolderLine):
        return item
    sent = from_folder(item, now_ms)
    return sent, understand(sent)


def _by_both(other: Connection, folder: Path, now_ms: int) -> Iterator[ReadTold]:
    """Read here for as long as the other process takes to start, and then give what that one reads."""
    read, done = _read(folder, now_ms), 0
    while not _has_started(other):
        if not (items := list(islice(read, _HANDED_OVER_AT_ONCE))):
            return
        yield from items
        done += len(items)
    done += _WHILE_IT_CATCHES_UP
    try:
        other.recv()
        other.send(done)
    except (EOFError, OSError):
        yield from read
    else:
        yield from islice(read, _WHILE_IT_CATCHES_UP)
        yield from _handed_over(other, folder, now_ms, done)


def _has_started(other: Connection) -> bool:
    """Tell whether the other process said so, or ended."""
    return other.poll()


def _read_on(there: Connection, folder: Path, now_ms: int) -> None:
    # Who stops a load stops the process that loads, and that one ends this.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    lots: Queue[bytes] = Queue(_LOTS_AHEAD)
    with suppress(EOFError, OSError):
        there.send(_STARTED)
        Thread(target=_read_into, args=(lots, folder, now_ms, there.recv()), daemon=True).start()
        while lot := lots.get():
            there.send_bytes(lot)


def _read_into(lots: "Queue[bytes]", folder: Path, now_ms: int, after: int) -> None:
    """Read lot after lot, however long the one before waits to be taken; nothing stands for the end."""
    read = (_understood(item, now_ms) for item in islice(came_later(folder), after, None))
    try:
        # What cannot be read the loading process comes upon itself, and says so.
        with uncollected(), suppress(FolderUnreadable):
            while items := list(islice(read, _HANDED_OVER_AT_ONCE)):
                lots.put(pickle.dumps(items))
            lots.put(pickle.dumps([]))
    finally:
        lots.put(b"")


def _handed_over(other: Connection, folder: Path, now_ms: int, done: int) -> Iterator[ReadTold]:
    """Give what the other process read behind so many; should that have ended early, read the rest here."""
    try:
        while items := other.recv():
            yield from items
            done += len(items)
    except (EOFError, OSError):
        yield from (_understood(item, now_ms) for item in islice(came_later(folder), done, None))
