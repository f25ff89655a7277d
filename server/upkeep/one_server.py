"""One process at a time writes to a data folder, since only one may empty its record's write-ahead log."""

import fcntl
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from server.record.troubles import RecordTrouble

LOCK = ".serving"


class AlreadyServed(RecordTrouble):
    """A service, or a command that writes, already holds this data folder."""


@contextmanager
def the_one_service(data_folder: Path) -> Iterator[None]:
    """Hold the folder while the block runs; it is free again whatever ends the process."""
    data_folder.mkdir(parents=True, exist_ok=True)
    with (data_folder / LOCK).open("a") as lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            raise AlreadyServed(
                f"{data_folder} is being served, or another command writes to it; stop that service first, then run "
                "this again: two programs that empty one write-ahead log can lose what was kept"
            ) from None
        yield
