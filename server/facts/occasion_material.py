"""A filler lot or a heat of tube, bar or sheet, with its analysis and the limits it is held against."""

from collections.abc import Mapping
from dataclasses import dataclass

from server.facts.equipment import Acceptance
from server.facts.materials import CompositionLimits


@dataclass(frozen=True, slots=True)
class MaterialOccasion:
    """One lot or heat; no limits: no table for its class or metal is on file."""

    subject: str
    filler: bool
    name: str
    composition: Mapping[str, float]
    limits: CompositionLimits | None
    accept: Mapping[str, Acceptance]
