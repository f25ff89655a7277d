"""Reads on in a long shop folder in a process of its own, so that lines are read while those before are written."""

import os
import pickle
import signal
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from itertools import chain, islice
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
_HERE_FIRST = 4000
"""So many are read by the loading process itself, while the other starts."""
_HANDED_OVER_AT_ONCE = 400
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
    receiver, sender = anew.Pipe(duplex=False)
    process = anew.Process(target=_read_on, args=(sender, folder.folder, now_ms, _HERE_FIRST), daemon=True)
    process.start()
    sender.close()
    try:
        yield chain(islice(_read(folder.folder, now_ms), _HERE_FIRST), _handed_over(receiver, folder.folder, now_ms))
    finally:
        receiver.close()
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


def _read_on(sender: Connection, folder: Path, now_ms: int, after: int) -> None:
    # Who stops a load stops the process that loads, and that one ends this.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    lots: Queue[bytes] = Queue(_LOTS_AHEAD)
    Thread(target=_read_into, args=(lots, folder, now_ms, after), daemon=True).start()
    with suppress(BrokenPipeError):
        while lot := lots.get():
            sender.send_bytes(lot)


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


def _handed_over(receiver: Connection, folder: Path, now_ms: int) -> Iterator[ReadTold]:
    """Give what the other process read; should that have ended early, read the rest here."""
    done = _HERE_FIRST
    try:
        while items := receiver.recv():
            yield from items
            done += len(items)
    except EOFError:
        yield from (_understood(item, now_ms) for item in islice(came_later(folder), done, None))
