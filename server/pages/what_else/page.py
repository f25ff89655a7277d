"""What the shared-cause page shows: the kinds one may ask by, the band, the sets, and the joints by where they are."""

from collections.abc import Sequence
from dataclasses import dataclass
from urllib.parse import urlencode

from server.charts.time_band import TimeBand
from server.statistics.screen import Screened
from server.work.claims_by_lot import ByLot
from server.work.what_checks import Cut
from server.work.what_else import PLACES, Shared, WhatElse
from server.work.what_things import KINDS, Kind, Thing

SHOWN = 40
"""How many of the things counted stand on the page; all of them stand in the CSV."""
FRAMES = 200
"""How many frames of one place stand on the page."""
ROWS = 3
"""How many things one may ask by at once."""


@dataclass(frozen=True, slots=True)
class WhatElsePage:
    """One question and its answer; without an answer, only the question."""

    asked: tuple[Thing, ...]
    since: str
    until: str
    found: WhatElse | None
    band: TimeBand | None
    held: frozenset[str]
    sees_customers: bool

    @property
    def rows(self) -> list[Thing]:
        """The things asked by, and empty rows for more."""
        empty = [Thing("cylinder", "")] * (ROWS - len(self.asked))
        return [*self.asked, *empty]

    @property
    def shown(self) -> int:
        """How many frames of one place are shown."""
        return FRAMES

    @property
    def kinds(self) -> tuple[Kind, ...]:
        """The kinds of things one may ask by."""
        return KINDS

    def address(self, things: tuple[Thing, ...] = (), check: str = "", *, days: bool = False) -> str:
        """The address that asks by these things, cut at a failed check, or by the days that were typed."""
        asked = [pair for each in things or self.asked for pair in (("kind", each.kind), ("id", each.name))]
        asked += [("check", check)] if check else []
        asked += [("since", self.since), ("until", self.until)] if days else []
        return urlencode(asked)

    @property
    def cut_entry(self) -> str:
        """The failed check the answer is cut at; empty without one."""
        return self.found.cut.failed.entry if self.found and self.found.cut else ""

    @property
    def other_cuts(self) -> list[Cut]:
        """The cuts one may make, but the one that is made."""
        return [each for each in self.found.cuts if each.failed.entry != self.cut_entry] if self.found else []

    @property
    def by_lot(self) -> ByLot | None:
        """The claims counted by the kind asked by, where one thing is asked by."""
        return self.found.by_lot if self.found else None

    @property
    def counted(self) -> Sequence[Screened]:
        """The things counted that are shown: those that stand out most."""
        return self.by_lot.rows[:SHOWN] if self.by_lot else ()

    @property
    def own_row(self) -> Screened | None:
        """How the thing asked by stands among all others of its kind, where one thing is asked by."""
        rows = self.by_lot.rows if self.by_lot else ()
        return next((each for each in rows if each.level == self.asked[0].name), None)

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
