"""What can keep the record from taking a line, in words for whoever stands at the tablet or the machine."""


class RecordTrouble(Exception):
    """Something about the record itself, not about what was sent; nothing was taken."""


class NoRoom(RecordTrouble):
    """The disk is full: nothing was taken, nothing is lost, and taking goes on by itself once there is room."""

    def __init__(self) -> None:
        super().__init__(
            "the disk that holds the record is full, so nothing was taken; keep the entries on the device, "
            "make room on the disk, and they are taken without a restart"
        )


class RecordClosed(RecordTrouble):
    """The record takes no more lines until it was restarted and checked."""

    def __init__(self, why: str) -> None:
        super().__init__(
            f"the record takes no more entries: {why}; keep the entries on the device, restart the program, "
            "and run check-record before going on"
        )


class CopyNotContinued(RecordClosed):
    """A restored copy: it can be recomputed, but takes nothing until it was told what is known outside."""

    def __init__(self) -> None:
        Exception.__init__(
            self,
            "this record is a restored copy and takes no entries and lets nobody sign in until it is told the last "
            "checkpoint known outside (on a frame card, with a customer); keep the entries on the device, "
            "stop the program, and run: strawline continue --help",
        )


class ReadEnded(RecordTrouble):
    """A question that held up the record for too long was ended."""

    def __init__(self) -> None:
        super().__init__("the question took too long and held up the record, so it was ended; ask for less, or again")


class RecordUnfit(RecordTrouble):
    """The database is not fit to be opened: no schema, another schema, or missing guards."""


class DatabaseAway(RecordTrouble):
    """PostgreSQL does not answer, or has no such database; the driver says which."""

    def __init__(self, why: str) -> None:
        super().__init__(
            f"the database cannot be reached: {why}; see that PostgreSQL runs, and that the setting `database` names "
            "a database that was made there and a user who may open it"
        )


class WriterTaken(RecordTrouble):
    """Another process already is the one writer of this record."""

    def __init__(self) -> None:
        super().__init__("another process already writes this record; stop it first, there is one writer only")


class RecordBusy(RecordTrouble):
    """Another process held the record for longer than a writer waits."""

    def __init__(self) -> None:
        super().__init__("another process is writing to the record; nothing was taken; send the entries again")
