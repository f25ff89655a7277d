"""A rod sleeve from opening to closing: what its label and its rod ends say."""

from collections.abc import Mapping
from dataclasses import dataclass

from server.facts.clock import Stamp
from server.facts.equipment import Acceptance


@dataclass(frozen=True, slots=True)
class SleeveOccasion:
    """One opening of one sleeve; `read_at_opening` is what was read then, `read_later` what was found afterwards."""

    subject: str
    sleeve: str
    opened: Stamp
    entry: str
    closed_ms: int | None
    open_days: float
    label_class: str | None
    read_at_opening: str | None
    read_later: str | None
    read_later_entry: str | None
    accept: Mapping[str, Acceptance]
