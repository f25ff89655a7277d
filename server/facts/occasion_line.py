"""What happens to gas: a bead, a cylinder change, a cylinder's own story, a check of a line, a check not made."""

from collections.abc import Mapping
from dataclasses import dataclass

from server.facts.clock import Stamp
from server.facts.equipment import Acceptance
from server.facts.figure import Figure


@dataclass(frozen=True, slots=True)
class BeadOccasion:
    """A test bead with its final result; `used_after` are passes on the line before the next good one."""

    subject: str
    line: str
    purge: bool
    entry: str
    at: Stamp
    result: str
    grade: int | None
    cylinder: str | None
    accept: Mapping[str, Acceptance]
    used_after: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ChangeOccasion:
    """A cylinder change on a line: the bead that followed it, the pressure of the one taken off."""

    subject: str
    line: str
    purge: bool
    entry: str
    at: Stamp
    on: str | None
    off: str | None
    beads: tuple[str, ...]
    used: bool
    closed: bool
    off_pressure: Figure | None
    accept: Mapping[str, Acceptance]


@dataclass(frozen=True, slots=True)
class CylinderOccasion:
    """A cylinder while it was on a purge line, with the oxygen read before and after it came on, and its analysis."""

    subject: str
    cylinder: str
    line: str | None
    at: Stamp | None
    before: tuple[float, ...]
    after: tuple[float, ...]
    step_u: float | None
    entries: tuple[str, ...]
    certificate: str | None
    certificate_oxygen_ppm: float | None
    certificate_dew_c: float | None
    analysis: str | None
    analysis_oxygen_ppm: float | None
    analysis_dew_c: float | None
    analysis_dew_u_c: float | None
    accept: Mapping[str, Acceptance]


@dataclass(frozen=True, slots=True)
class LineCheckOccasion:
    """A leak test, a dew point reading or a function check."""

    subject: str
    check: str
    thing: str
    entry: str
    at: Stamp
    result: str
    dew_point: Figure | None
    accept: Mapping[str, Acceptance]


@dataclass(frozen=True, slots=True)
class DueOccasion:
    """A check that was due for a thing in use: over which stretch, and the entry that did it, if any."""

    subject: str
    what: str
    thing: str
    day: int
    used: bool
    done: str | None
    accept: Mapping[str, Acceptance]
