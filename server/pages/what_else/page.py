"""What the shared-cause page shows: the kinds one may ask by, the band, the sets, and the joints by where they are."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import islice
from typing import NamedTuple
from urllib.parse import urlencode

from markupsafe import Markup

from server.charts.time_band import TimeBand
from server.pages.frame.paged import Backwards, Part, part_of
from server.pages.what_else.checks_shown import check_rows, shapes
from server.pages.what_else.frame_rows import frame_rows
from server.statistics.screen import Screened
from server.work.claims_by_lot import ByLot
from server.work.frame_places import PLACES, Place
from server.work.frame_told import FrameTold
from server.work.what_checks import Beside, Cut
from server.work.what_else import WhatElse
from server.work.what_things import KINDS, Kind, Thing

SHOWN = 40
"""How many of the things counted stand on the page; all of them stand in the CSV."""
FRAMES = 25
"""How many frames of one place stand on the page; all of them stand in the CSV."""
CHECKS = 100
"""How many of the checks beside it stand on the page; all of them stand in the CSV."""
CUTS = 12
"""At how many failed checks the page offers to cut, the newest; all checks stand in the CSV."""
ROWS = 3
"""How many things one may ask by at once."""


class PlaceGroup(NamedTuple):
    """One place: how many joints are there, and the frames of them that are shown."""

    place: Place
    joints: int
    frames: Part[FrameTold]


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
    place: str = ""
    part: int = 1

    @property
    def rows(self) -> list[Thing]:
        """The things asked by, and empty rows for more."""
        empty = [Thing("cylinder", "")] * (ROWS - len(self.asked))
        return [*self.asked, *empty]

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
        """The newest cuts one may make, but the one that is made."""
        cuts = self.found.cuts() if self.found else ()
        return list(islice((each for each in cuts if each.failed.entry != self.cut_entry), CUTS))

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
        return self.by_lot.row_of.get(self.asked[0].name) if self.by_lot else None

    @property
    def checks(self) -> Sequence[Beside]:
        """The newest checks beside it."""
        return self.found.checks.every[-CHECKS:] if self.found else ()

    def check_rows(self, zone: str) -> Markup:
        """Give the rows of the newest checks."""
        return check_rows(self.checks, zone)

    @property
    def shapes(self) -> Markup:
        """The checks on the band."""
        return shapes(self.band.marks if self.band else ())

    @property
    def groups(self) -> list[PlaceGroup]:
        """Give where everything is: at each place how many joints, and the frames there, the last welded first."""
        return [self._group(self.found, place) for place in PLACES] if self.found else []

    def _group(self, found: WhatElse, place: Place) -> PlaceGroup:
        asked = self.part if place == self.place else 1
        shown = part_of(Backwards(found.frames_at(place)), asked, FRAMES, self.address_of(place))
        told = [found.told_of(row) for row in shown.rows]
        return PlaceGroup(place, found.sought.joints_at(place), shown.showing(told))

    def told(self, part: Part[FrameTold], zone: str) -> Markup:
        """Give the rows of the frames shown."""
        return frame_rows(part.rows, zone, self.held, sees_customers=self.sees_customers)

    def address_of(self, place: Place) -> str:
        """The address that asks the same and shows more of one place."""
        return f"/what-else?{self.address(check=self.cut_entry, days=True)}&{urlencode({'place': place})}"
