"""Only one service at a time for one data folder, since only one may empty its record's write-ahead log."""

import fcntl
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


class AlreadyServed(Exception):
    """Another service already serves this data folder."""


@contextmanager
def the_one_service(data_folder: Path) -> Iterator[None]:
    """Hold the folder while the block runs; it is free again whatever ends the process."""
    data_folder.mkdir(parents=True, exist_ok=True)
    with (data_folder / ".serving").open("a") as lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            raise AlreadyServed(f"{data_folder} is being served already; stop that service first") from None
        yield
