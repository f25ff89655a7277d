"""Filler lots and sleeves, argon fill lots and cylinders, tube heats, and the certificates behind them."""

import re
from datetime import date
from typing import Literal

from pydantic import Field, field_validator

from server.facts.measured import DecimalText
from server.facts.noun import Noun

_RANGE = re.compile(r"(\d+(\.\d+)?)?\.\.(\d+(\.\d+)?)?(?<!^\.\.)")


class FillerLot(Noun):
    """A lot of filler rod; it may be used once its certificate is released."""

    kind: Literal["filler lot"] = "filler lot"
    id: str
    filler_class: str
    certificate: str | None = None
    released: date | None = None
    until: date | None = None
    composition: dict[str, DecimalText] = Field(default_factory=dict, description="mass per cent by element")


class RodSleeve(Noun):
    """A sleeve of rods as received: what its label says."""

    kind: Literal["rod sleeve"] = "rod sleeve"
    id: str
    lot: str
    filler_class: str
    rod_mm: DecimalText
    received: date | None = None


class FillLot(Noun):
    """A fill lot of shielding gas with its certificate: oxygen [ppm] and dew point [°C]."""

    kind: Literal["fill lot"] = "fill lot"
    id: str
    cylinders: tuple[str, ...]
    certificate: str | None = None
    released: date | None = None
    purity_percent: DecimalText | None = None
    oxygen_ppm: DecimalText | None = None
    dew_point_c: DecimalText | None = None


class Analysis(Noun):
    """A later analysis of one cylinder, returned to the supplier or sampled."""

    kind: Literal["analysis"] = "analysis"
    id: str
    cylinder: str
    dated: date
    oxygen_ppm: DecimalText | None = None
    dew_point_c: DecimalText | None = None
    dew_point_uncertainty_c: DecimalText | None = None
    laboratory: str


class TubeHeat(Noun):
    """A heat of tube, bar or plate with its inspection certificate."""

    kind: Literal["tube heat"] = "tube heat"
    id: str
    metal: str
    condition: str | None = None
    certificate: str | None = None
    released: date | None = None
    composition: dict[str, DecimalText] = Field(default_factory=dict)


class CompositionLimits(Noun):
    """What a class of filler or a metal may hold, mass per cent by element as `least..most`, with edition and clause.

    Typed in by the shop from its own copy, or one of the few tables the program brings; the shop's own stands first.
    """

    kind: Literal["composition limits"] = "composition limits"
    id: str = Field(description="the filler class or the metal, as its lots and heats name it")
    edition: str
    limits: dict[str, str]

    @field_validator("limits")
    @classmethod
    def _read_as_ranges(cls, limits: dict[str, str]) -> dict[str, str]:
        for element, text in limits.items():
            if not _RANGE.fullmatch(text):
                raise ValueError(f"limits.{element} is {text!r}; write `..0.15`, `0.08..0.16` or `0.08..`")
        return limits


class Piece(Noun):
    """A physical tube or part in one frame, with the heat it was cut from; no heat: the tag was lost."""

    kind: Literal["piece"] = "piece"
    id: str
    frame: str
    member: str
    heat: str | None = None
    attempt: int = 1
