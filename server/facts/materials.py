"""Filler lots and sleeves, argon fill lots and cylinders, tube heats, and the certificates behind them."""

from datetime import date
from typing import Literal

from pydantic import Field

from server.facts.measured import DecimalText
from server.facts.noun import Noun


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


class Piece(Noun):
    """A physical tube or part in one frame, with the heat it was cut from; no heat: the tag was lost."""

    kind: Literal["piece"] = "piece"
    id: str
    frame: str
    member: str
    heat: str | None = None
    attempt: int = 1
