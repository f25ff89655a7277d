"""Opens a record for a command that writes: only while nobody else does, and closed whatever happens."""

from collections.abc import Iterator
from contextlib import contextmanager

from server.record.book_of_lines import Record
from server.settings import Settings
from server.upkeep.one_server import the_one_service


@contextmanager
def writing(settings: Settings) -> Iterator[Record]:
    """Hold the data folder and its record while the block runs; raises `AlreadyServed` while a service does."""
    with the_one_service(settings.data_folder):
        record = Record.open(settings.database_url, settings.data_folder)
        try:
            yield record
        finally:
            record.close()
