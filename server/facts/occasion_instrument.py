"""What is known of instruments: cross-checks and air checks, calibrations, and readings that cannot be true."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

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


class ImpossibleReading(NamedTuple):
    """A reading below what the gas's own certificate says it holds [ppm]."""

    entry: str
    day: int
    value: float
    u: float | None
    certified: float


@dataclass(frozen=True, slots=True)
class InstrumentOccasion:
    """An instrument between two good calibrations: when it is due, its use after that, readings that stand out."""

    subject: str
    instrument: str
    today: int
    due_day: int | None
    used_after_due: tuple[str, ...]
    impossible: tuple[ImpossibleReading, ...]
    run: tuple[str, ...]
    run_day: int | None
    accept: Mapping[str, Acceptance]
