"""Which database error is a verb's own, and which says that the disk or the database cannot keep anything."""

from sqlalchemy.exc import DBAPIError

from server.record.troubles import NoRoom, RecordBusy, RecordClosed, RecordTrouble

# A size limit set on the process is reported as a failed write, a full disk as FULL; both mend themselves.
_NO_ROOM = {"SQLITE_FULL", "SQLITE_IOERR_WRITE"}
_POSTGRES_DISK_FULL = "53100"
_BROKEN = ("SQLITE_IOERR", "SQLITE_CORRUPT", "SQLITE_NOTADB", "SQLITE_READONLY", "SQLITE_CANTOPEN", "SQLITE_PROTOCOL")


def trouble_of(error: BaseException) -> RecordTrouble | None:
    """Give the trouble an error tells of; none when it is only the verb's own.

    After a failed sync the disk may have dropped what it was told to keep and will not say so twice: hence closed.
    """
    if isinstance(error, RecordTrouble):
        return error
    told = error.orig if isinstance(error, DBAPIError) else error
    name = getattr(told, "sqlite_errorname", "")
    if name in _NO_ROOM or getattr(told, "sqlstate", None) == _POSTGRES_DISK_FULL:
        return NoRoom()
    if name.startswith(_BROKEN):
        return RecordClosed(f"the disk or the file failed ({name}: {told})")
    if name.startswith("SQLITE_BUSY"):
        return RecordBusy()
    if isinstance(error, DBAPIError) and error.connection_invalidated:
        return RecordClosed("the connection to the database was lost")
    return None
