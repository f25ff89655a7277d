"""Whether the database's own pages hold, and every index says what its table says: pages are found by indexes."""

from collections.abc import Iterator

from sqlalchemy import Connection

_MEND = "nothing found by it can be relied on; put back a backup, and look after the disk"


def odd_pages(connection: Connection) -> Iterator[str]:
    """Say what SQLite finds wrong with its file; PostgreSQL looks after its own pages."""
    if connection.dialect.name != "sqlite":
        return
    for (said,) in connection.exec_driver_sql("PRAGMA integrity_check(20)"):
        if said != "ok":
            yield f"the database file: {' '.join(str(said).split())}; {_MEND}"
