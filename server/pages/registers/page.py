"""What the registers' screen shows, with each strip of time laid out."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from server.charts.time_strip import Band, Moment, TimeStrip, lay_time
from server.facts.certificate_file import CertificateFile
from server.facts.equipment import Calibration
from server.facts.materials import TubeHeat
from server.occasions.days import Days
from server.work.register_sheets import Calibrated, LineBands, Qualified, Rods

_CURVE = 120.0


@dataclass(frozen=True, slots=True)
class RegistersPage:
    """All registers as known now; `today` is the shop's day, as date ordinal."""

    qualified: tuple[Qualified, ...]
    calibrated: tuple[Calibrated, ...]
    lines: tuple[LineBands, ...]
    rods: tuple[Rods, ...]
    heats: tuple[TubeHeat, ...]
    files: Mapping[tuple[str, str], tuple[CertificateFile, ...]]
    may_have_files: tuple[str, ...]
    today: int
    days: Days
    problems: tuple[str, ...] = ()
    done: str = ""
    chosen: str = ""

    def day(self, ordinal: int) -> str:
        """Write a day of the shop."""
        return date.fromordinal(ordinal).strftime("%-d %B %Y")

    def files_of(self, kind: str, name: str) -> tuple[CertificateFile, ...]:
        """Give the certificate files of one register line."""
        return self.files.get((kind, name), ())

    def qualification_strip(self, each: Qualified) -> TimeStrip:
        """Lay a qualification out: the time it held, its confirmations, its last day, today."""
        marks = [Moment(c.dated.toordinal(), "confirmed", f"confirmed {c.dated}, {c.by}") for c in each.confirmed]
        held = [
            Band(first, last, "held", f"{date.fromordinal(first)} to {date.fromordinal(last)}")
            for first, last in each.spells
        ]
        return lay_time(held, [*marks, Moment(self.today, "today", "today")])

    def line_strip(self, line: LineBands) -> TimeStrip | None:
        """Lay a gas line out: a band per cylinder, a mark per test bead, failed ones by another shape."""
        bands = []
        for place, each in enumerate(line.cylinders):
            first = self.days.day_of(each.since_ms)
            # The day of a change belongs to the cylinder that comes on.
            last = self.days.day_of(each.until_ms) - 1 if each.until_ms else self.today
            bands.append(Band(first, max(first, last), "even" if place % 2 else "odd", each.cylinder))
        wrong = [at for at, result in line.beads if result == "failed"]
        failed = [Moment(self.days.day_of(at), "failed", "failed bead") for at in wrong]
        return lay_time(bands, failed) if bands else None

    def curve(self, calibration: Calibration) -> list[tuple[float, float, str]]:
        """Lay as-found points out in a square: true value to the right, indicated one upwards, one scale for both."""
        most = max((each for pair in calibration.as_found for each in pair), default=0.0) or 1.0
        return [
            (round(_CURVE * true / most, 1), round(_CURVE * (1 - shown / most), 1), f"true {true:g}, shown {shown:g}")
            for true, shown in calibration.as_found
        ]
