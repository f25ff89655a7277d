"""Questions to a record that another process has open for writing."""

from collections.abc import Iterator
from contextlib import contextmanager

from server.record.asking import Remembered
from server.record.engines import make_engines
from server.record.reads import Reads


@contextmanager
def reading_only(url: str) -> Iterator[Reads]:
    """Ask questions of one unchanging state of a record, while the block runs."""
    engine = make_engines(url).reading
    try:
        with engine.connect() as connection, connection.begin():
            yield Reads(connection, Remembered())
    finally:
        engine.dispose()
