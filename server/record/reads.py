"""Every question the record answers, asked over one connection in one transaction."""

from server.record.reading_bench import BenchReads
from server.record.reading_door import DoorReads
from server.record.reading_entries import EntryReads
from server.record.reading_judged import JudgedReads
from server.record.reading_lines import LineReads
from server.record.reading_registers import RegisterReads
from server.record.reading_short import ShortReads
from server.record.reading_stretches import StretchReads
from server.record.reading_tablets import TabletReads


class Reads(
    EntryReads, TabletReads, StretchReads, RegisterReads, LineReads, JudgedReads, ShortReads, DoorReads, BenchReads
):
    """The questions by what they ask for; each takes a fixed number of statements, however much there is."""
