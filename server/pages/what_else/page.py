"""What the shared-cause page shows: the kinds one may ask by, the band, and the joints by where they are."""

from dataclasses import dataclass

from server.charts.time_band import TimeBand
from server.work.what_else import KINDS, PLACES, Kind, Shared, WhatElse


@dataclass(frozen=True, slots=True)
class WhatElsePage:
    """One question and its answer; without an answer, only the question."""

    kind: str
    thing: str
    since: str
    until: str
    found: WhatElse | None
    band: TimeBand | None
    asked: str
    sees_customers: bool

    @property
    def kinds(self) -> tuple[Kind, ...]:
        """The kinds of things one may ask by."""
        return KINDS

    @property
    def groups(self) -> list[tuple[str, list[tuple[str, list[Shared]]]]]:
        """Give the joints by place, and within it by frame."""
        if self.found is None:
            return []
        return [(place, _by_frame(self.found.at(place))) for place in PLACES]


def _by_frame(shared: list[Shared]) -> list[tuple[str, list[Shared]]]:
    found: dict[str, list[Shared]] = {}
    for each in shared:
        found.setdefault(each.frame, []).append(each)
    return sorted(found.items())
