"""Readings of an instrument found wrong, put right by the curve it was found on, where that was signed."""

from server.facts.figure import Figure
from server.occasions.failed import Failed
from server.occasions.failed_checks import FailedCheck
from server.occasions.narrowed import Cuts, true_from_curve


class Curves:
    """The as-found curves that were signed, by instrument and stretch of time."""

    def __init__(self, failed: Failed, cuts: Cuts) -> None:
        self._failed = failed
        self._cuts = cuts

    def for_reading(self, instrument: str | None, at_ms: int) -> FailedCheck | None:
        """Give the failed calibration whose curve holds for a reading of that time."""
        for failed in self._failed.of("calibration", instrument):
            stretch = self._cuts.curve_stretch(failed)
            if stretch is not None and stretch[0] <= at_ms <= stretch[1]:
                return failed
        return None

    @staticmethod
    def corrected(reading: Figure, failed: FailedCheck) -> Figure:
        """Give what a reading meant, with the uncertainty the calibration gave its curve."""
        true = true_from_curve(failed.as_found, reading.value)
        return Figure(true, failed.found_u, "computed", reading.by, reading.entry)
