"""A device's clock over one stretch."""

from collections.abc import Mapping
from dataclasses import dataclass

from server.facts.clock import ClockSegment
from server.facts.equipment import Acceptance


@dataclass(frozen=True, slots=True)
class TabletOccasion:
    """One stretch of one device's clock; `subject` is the device at the minute it began."""

    subject: str
    device: str
    segment: ClockSegment
    accept: Mapping[str, Acceptance]
