"""Readings of an instrument found wrong, put right by the curve it was found on, where that was signed."""

from collections import defaultdict
from collections.abc import Iterable

from server.facts.figure import Figure
from server.occasions.failed_checks import FailedCheck
from server.occasions.narrowed import Cuts, true_from_curve


class Curves:
    """The as-found curves that were signed, by instrument and stretch of time."""

    def __init__(self, failed: Iterable[FailedCheck], cuts: Cuts) -> None:
        self._of: dict[str, list[tuple[int, int, FailedCheck]]] = defaultdict(list)
        for each in failed:
            stretch = cuts.curve_stretch(each)
            if stretch is not None:
                self._of[each.thing].append((*stretch, each))

    def for_reading(self, instrument: str | None, at_ms: int) -> FailedCheck | None:
        """Give the failed calibration whose curve holds for a reading of that time."""
        for since, until, failed in self._of.get(instrument or "", ()):
            if since <= at_ms <= until:
                return failed
        return None

    @staticmethod
    def corrected(reading: Figure, failed: FailedCheck) -> Figure:
        """Give what a reading meant, with the uncertainty the calibration gave its curve."""
        true = true_from_curve(failed.as_found, reading.value)
        return Figure(true, failed.found_u, "computed", reading.by, reading.entry)
