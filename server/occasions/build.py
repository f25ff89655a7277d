"""The shop as known at one record position, from which frames and shared things are made into occasions."""

from collections.abc import Iterator, Sequence
from datetime import date

from server.facts.occasion import Occasion
from server.facts.orders import Packet
from server.facts.recorded import Recorded
from server.facts.suspect import SuspectSet
from server.occasions.about import About
from server.occasions.cylinders import cylinder_occasions
from server.occasions.dues import due_occasions
from server.occasions.frames import frame_occasions
from server.occasions.instruments import calibration_occasions, check_occasions, instrument_occasions
from server.occasions.known import Known
from server.occasions.lines import bead_occasions, change_occasions, line_check_occasions
from server.occasions.materials import material_occasions
from server.occasions.papers import concession_occasions, nonconformity_occasions
from server.occasions.sleeves import sleeve_occasions
from server.occasions.suspects import suspect_set
from server.occasions.tables import Tables
from server.occasions.tablets import tablet_occasions
from server.occasions.welders import coupon_occasions, welder_occasions

_SHARED = (
    bead_occasions,
    change_occasions,
    cylinder_occasions,
    line_check_occasions,
    due_occasions,
    check_occasions,
    calibration_occasions,
    instrument_occasions,
    coupon_occasions,
    welder_occasions,
    sleeve_occasions,
    material_occasions,
    tablet_occasions,
    nonconformity_occasions,
    concession_occasions,
)


class Shop:
    """Built once per batch; `on` holds everything against what is in force on that day instead of then."""

    def __init__(self, known: Known, on: date | None = None, tables: Tables | None = None) -> None:
        """`tables` are those of everything known, where somebody made them before."""
        self.tables = tables or Tables(known, on)

    def frame(self, packet: Packet, entries: Sequence[Recorded]) -> list[Occasion]:
        """Give the pass, tack, joint and frame occasions of one frame from its own entries."""
        return frame_occasions(self.tables, packet, entries)

    def shared(self, about: About = None) -> list[Occasion]:
        """Give the occasions of gas lines, cylinders, instruments, sleeves, welders, tablets, papers; or of some."""
        return [occasion for occasions in _SHARED for occasion in occasions(self.tables, about)]

    def suspect_sets(self) -> Iterator[SuspectSet]:
        """Give the set each failed check opened, narrowed or not, over all passes known."""
        for failed in self.tables.every_failed():
            yield suspect_set(self.tables, failed)
