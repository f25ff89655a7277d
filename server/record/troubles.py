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


class RecordUnfit(RecordTrouble):
    """The database is not fit to be opened: no schema, another schema, or missing guards."""


class WriterTaken(RecordTrouble):
    """Another process already is the one writer of this record."""

    def __init__(self) -> None:
        super().__init__("another process already writes this record; stop it first, there is one writer only")


class RecordBusy(RecordTrouble):
    """Another process held the record for longer than a writer waits."""

    def __init__(self) -> None:
        super().__init__("another process is writing to the record; nothing was taken; send the entries again")
