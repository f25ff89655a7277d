"""Benches and their gas lines, devices, instruments with their calibrations, and the doubt of each reading."""

from datetime import date
from typing import Literal

from pydantic import Field, model_validator

from server.facts.acceptance_kinds import ACCEPTANCE_KINDS
from server.facts.entry import Moment
from server.facts.measured import DecimalText
from server.facts.noun import Noun


class Bench(Noun):
    """A bench or booth with its gas lines and its power source."""

    kind: Literal["bench"] = "bench"
    id: str
    title: str
    torch_line: str
    purge_line: str
    trailing_line: str | None = None
    machine: str | None = None
    devices: tuple[str, ...] = ()


class Uncertainty(Noun):
    """Standard uncertainty of one quantity: root of squares of a fixed part and a share of the reading."""

    quantity: str
    fixed: DecimalText = 0.0
    share: DecimalText = 0.0
    unit: str


class Instrument(Noun):
    """An instrument or counting machine, with the uncertainty of what it reads and its calibration interval."""

    kind: Literal["instrument"] = "instrument"
    id: str
    title: str
    bench: str | None = None
    reads: tuple[Uncertainty, ...] = ()
    months: int | None = Field(default=None, gt=0)


class Calibration(Noun):
    """A calibration: as found against as left; a failed one puts in doubt what was read since the last good one."""

    kind: Literal["calibration"] = "calibration"
    id: str
    instrument: str
    at: Moment
    result: Literal["pass", "fail"]
    as_found: tuple[tuple[DecimalText, DecimalText], ...] = Field(default=(), description="true value, indicated value")
    found_uncertainty: DecimalText | None = None
    certificate: str | None = None


class Window(Noun):
    """A stretch of time in which something held: an instrument or a fixture at a bench, a cable out."""

    kind: Literal["window"] = "window"
    id: str
    what: Literal["instrument at bench", "fixture at bench", "cable out"]
    subject: str
    bench: str | None = None
    since: Moment
    until: Moment | None = None


class Acceptance(Noun):
    """One figure of the shop's acceptance file: a limit no procedure holds, with source and start."""

    kind: Literal["acceptance"] = "acceptance"
    id: str
    name: str
    unit: str
    value: DecimalText
    source: str
    valid_from: date

    @model_validator(mode="after")
    def _known_and_in_its_unit(self) -> "Acceptance":
        kind = ACCEPTANCE_KINDS.get(self.name)
        if kind is None:
            known = ", ".join(sorted(ACCEPTANCE_KINDS))
            raise ValueError(f"acceptance {self.name!r} is read by no rule; known names are {known}")
        if self.unit != kind.unit:
            raise ValueError(f"acceptance {self.name} is in {self.unit!r}; it is kept in {kind.unit!r}")
        return self
