"""What was in each rod sleeve, when it was open, and whether its lot was released: the label against the rod ends."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from server.facts.clock import Stamp
from server.facts.layered import differing
from server.facts.materials import FillerLot, RodSleeve
from server.facts.occasion_pass import RodUsed
from server.occasions.timed import Timed


class Opening(NamedTuple):
    """One opening of a sleeve, with the reading of its rod ends then and any later one."""

    sleeve: str
    opened: Timed
    closed: Timed | None
    later: tuple[Timed, ...]


class Rods:
    """All sleeves, from their labels and from what was logged about them."""

    _openings: dict[str, Sequence[Opening]]
    _told: Mapping[str, Sequence[Timed]]

    def __init__(
        self,
        told: Mapping[str, Sequence[Timed]],
        sleeves: Mapping[str, RodSleeve],
        lots: Mapping[str, FillerLot],
        before: "Rods | None" = None,
    ) -> None:
        """`told` is what was logged, by sleeve; what was read off it before is kept where nothing more was."""
        self._told = told
        self._sleeves = sleeves
        self._lots = lots
        # Whoever looks at the sleeves before goes on reading into them.
        self._openings = before._openings.copy() if before else {}
        for sleeve in differing(before._told, told) if before else ():
            self._openings.pop(sleeve, None)
        self._made: dict[tuple[str, bool | None, bool | None], RodUsed] = {}

    @property
    def opened(self) -> Collection[str]:
        """Every sleeve of which something was logged."""
        return self._told.keys()

    def openings(self, sleeve: str) -> Sequence[Opening]:
        """Give every opening of a sleeve."""
        found = self._openings.get(sleeve)
        if found is None:
            found = self._openings[sleeve] = list(_openings(sleeve, self._told.get(sleeve, [])))
        return found

    def used(self, sleeve: str, at: Stamp, day: int) -> RodUsed:
        """Give what a pass took from a sleeve at one moment."""
        released = self._lot_released(sleeve, day)
        was_open = self._was_open(sleeve, at)
        key = (sleeve, released, was_open)
        made = self._made.get(key)
        if made is None:
            made = self._made[key] = self._rod(sleeve, released, was_open)
        return made

    def label(self, sleeve: str) -> RodSleeve | None:
        """Give the sleeve's label."""
        return self._sleeves.get(sleeve)

    def _rod(self, sleeve: str, released: bool | None, was_open: bool | None) -> RodUsed:
        label = self._sleeves.get(sleeve)
        read = _last_read(self._told.get(sleeve, ()))
        return RodUsed(
            sleeve=sleeve,
            label_class=label.filler_class if label else None,
            read_class=read.entry.rod_ends if read else None,
            read_entry=read.entry.id if read else None,
            rod_mm=label.rod_mm if label else None,
            lot=label.lot if label else None,
            lot_released=released,
            was_open=was_open,
        )

    def _lot_released(self, sleeve: str, day: int) -> bool | None:
        label = self._sleeves.get(sleeve)
        lot = self._lots.get(label.lot) if label else None
        if lot is None:
            return None
        return lot.released is not None and lot.released.toordinal() <= day

    def _was_open(self, sleeve: str, at: Stamp) -> bool | None:
        """None when nobody logged an opening of this sleeve, or when the clocks cannot tell."""
        openings = self.openings(sleeve)
        if not openings:
            return None
        answers = [_open_at(each, at) for each in openings]
        if True in answers:
            return True
        return None if None in answers else False


def _openings(sleeve: str, told: Sequence[Timed]) -> Iterable[Opening]:
    starts = [place for place, each in enumerate(told) if each.entry.act == "opened"]
    for start, end in pairwise([*starts, len(told)]):
        after = told[start + 1 : end]
        closed = next((each for each in after if each.entry.act == "closed"), None)
        yield Opening(sleeve, told[start], closed, tuple(each for each in after if each.entry.rod_ends))


def _last_read(told: Sequence[Timed]) -> Timed | None:
    return next((each for each in reversed(told) if each.entry.rod_ends), None)


def _open_at(opening: Opening, at: Stamp) -> bool | None:
    opened = opening.opened.at
    if at.at_ms < opened.at_ms:
        return None if opened.at_ms - at.at_ms <= opened.error_ms + at.error_ms else False
    if opening.closed is None:
        return True
    closed = opening.closed.at
    if at.at_ms > closed.at_ms:
        return None if at.at_ms - closed.at_ms <= closed.error_ms + at.error_ms else False
    return True
