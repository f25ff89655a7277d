"""What is known of instruments: cross-checks and air checks, calibrations, and readings that cannot be true."""

from collections.abc import Mapping
from dataclasses import dataclass

from server.facts.clock import Stamp
from server.facts.equipment import Acceptance


@dataclass(frozen=True, slots=True)
class CheckOccasion:
    """An air check or a cross-check of an instrument; `difference` is the largest shown between the two."""

    subject: str
    check: str
    instrument: str
    against: str | None
    entry: str
    at: Stamp
    result: str
    difference: float | None
    unit: str
    acted_on: bool | None
    used_after: tuple[str, ...]
    accept: Mapping[str, Acceptance]


@dataclass(frozen=True, slots=True)
class CalibrationOccasion:
    """A calibration, as found."""

    subject: str
    instrument: str
    calibration: str
    at_ms: int
    passed: bool
    last_good_ms: int | None
    accept: Mapping[str, Acceptance]


@dataclass(frozen=True, slots=True)
class InstrumentOccasion:
    """An instrument between two calibrations: when it was due, its use after that, and readings below the gas's own."""

    subject: str
    instrument: str
    due_day: int | None
    used_after_due: tuple[str, ...]
    impossible_day: int | None
    impossible: tuple[tuple[str, float, float], ...]
    certificate_ppm: float | None
    longest_run: int
    run_entries: tuple[str, ...]
    accept: Mapping[str, Acceptance]
