"""The checks beside the passes that shared a thing, and the cut one may make between the last good and a failed one."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from heapq import merge
from itertools import accumulate
from typing import Literal, NamedTuple

from server.facts.equipment import Calibration
from server.occasions.tables import Tables
from server.occasions.tested import Tested
from server.work.sought import Sought
from server.work.stretch import EVER, Stretch
from server.work.what_things import Thing


class Beside(NamedTuple):
    """A check of the same thing beside the passes: when, what, how it came out, and of which thing it was."""

    at_ms: int
    words: str
    good: bool
    entry: str
    about: str


class Cut(NamedTuple):
    """What lies between the last good check of a thing and a failed one; without a good one, from the beginning."""

    failed: Beside
    good: Beside | None

    @property
    def since_ms(self) -> int | None:
        """From when [ms, UTC]."""
        return self.good.at_ms if self.good else None

    @property
    def until_ms(self) -> int:
        """Until when [ms, UTC]."""
        return self.failed.at_ms

    @property
    def stretch(self) -> Stretch:
        """The stretch it leaves."""
        return Stretch(EVER.since_ms if self.good is None else self.good.at_ms + 1, self.until_ms)


class InOrder(NamedTuple):
    """Checks in order, and the same by how they came out."""

    every: Sequence[Beside]
    good: Sequence[Beside]
    failed: Sequence[Beside]


NONE_IN_ORDER = InOrder((), (), ())


class OfOne(NamedTuple):
    """The checks of one thing in order, before each of them how many were good, and the cut at each failed one."""

    checks: InOrder
    good_before: Sequence[int]
    cuts: Sequence[Cut]

    def between(self, low: int, high: int) -> InOrder:
        """Give those from one place up to another."""
        every, good, failed = self.checks
        first, last = self.good_before[low], self.good_before[high]
        return InOrder(every[low:high], good[first:last], failed[low - first : high - last])


class Checks(NamedTuple):
    """The checks of some things, each thing's by themselves; put in one order no further than somebody asks."""

    of_each: tuple[OfOne, ...]

    @property
    def failed(self) -> int:
        """How many of them failed."""
        return sum(len(each.cuts) for each in self.of_each)

    def newest_cuts(self) -> Iterator[Cut]:
        """Give, for each failed check, the stretch since the last good one of the same thing; the newest first."""
        return merge(*(reversed(each.cuts) for each in self.of_each), key=_failed_in_order, reverse=True)

    def cut_at(self, failed: str) -> Cut | None:
        """Give the cut at one failed check."""
        return next((cut for each in self.of_each for cut in each.cuts if cut.failed.entry == failed), None)

    def around(self, first_ms: int, last_ms: int, within: Stretch = EVER) -> InOrder:
        """Give the checks from just before a first pass to just after a last one [ms, UTC], in order; of these the ones
        within a time."""
        if len(self.of_each) == 1:
            (one,) = self.of_each
            return one.between(*_inside(one.checks.every, _around(one.checks.every, first_ms, last_ms), within))
        near = (each.checks.every[slice(*_around(each.checks.every, first_ms, last_ms))] for each in self.of_each)
        every = list(merge(*near, key=_in_order))
        return _by_outcome(every[slice(*_inside(every, _around(every, first_ms, last_ms), within))])


def of_one(checks: Sequence[Beside]) -> OfOne:
    """Give the checks of one thing, which are in order, as one asks about them."""
    good_before = list(accumulate((each.good for each in checks), initial=0))
    return OfOne(_by_outcome(checks), good_before, list(_cuts(checks)))


def checks_of(sought: Sought) -> Checks:
    """Give every check of what was asked by: beads of lines, tests of instruments, coupons of welders."""
    about = dict.fromkeys(each for thing in sought.things for each in _abouts(sought, thing))
    return Checks(tuple(checks_beside(sought.tables, *each) for each in about))


def _around(checks: Sequence[Beside], first_ms: int, last_ms: int) -> tuple[int, int]:
    before, after = bisect_right(checks, first_ms, key=_at_ms), bisect_right(checks, last_ms, key=_at_ms)
    return max(before - 1, 0), min(after + 1, len(checks))


def _inside(checks: Sequence[Beside], places: tuple[int, int], within: Stretch) -> tuple[int, int]:
    low, high = (bisect_left(checks, end_ms, key=_at_ms) for end_ms in within)
    return max(places[0], low), max(places[0], low, min(places[1], high))


def _by_outcome(checks: Sequence[Beside]) -> InOrder:
    return InOrder(checks, [each for each in checks if each.good], [each for each in checks if not each.good])


def _cuts(checks: Iterable[Beside]) -> Iterator[Cut]:
    last_good: dict[str, list[Beside]] = {}
    for each in checks:
        good = last_good.setdefault(each.about, [])
        if each.good:
            good.append(each)
        else:
            yield Cut(each, next((it for it in reversed(good) if it.at_ms < each.at_ms), None))


About = Literal["line", "instrument", "welder"]


def _abouts(sought: Sought, thing: Thing) -> list[tuple[About, str]]:
    """What the checks beside a thing are about."""
    if thing.kind in ("cylinder", "fill lot", "line", "bench"):
        return [("line", line) for line in sorted(_lines_of(sought, thing))]
    if thing.kind == "instrument" or thing.kind == "welder":
        return [(thing.kind, thing.name)]
    return []


def checks_beside(tables: Tables, about: About, name: str) -> OfOne:
    """The checks of one thing in order; made once of the lists they stand in, which stay while no more are told."""
    tested = {"line": tables.gas.beads.get(name, ()), "welder": tables.coupons_of(name)}
    calibrated = tables.calibrations_of.get(name, ()) if about == "instrument" else ()
    told = tested.get(about, tables.checks_about(name)), calibrated

    def made(_: OfOne | None) -> OfOne:
        return of_one(sorted(_of(about, name, *told), key=_in_order))

    return tables.made_of.kept(f"checks beside {about} {name}", told, made)


def _of(about: About, name: str, tested: Iterable[Tested], calibrated: Iterable[Calibration]) -> list[Beside]:
    if about == "line":
        return [_tested(each, f"bead on {name}", name) for each in tested]
    if about == "welder":
        return [_tested(each, f"coupon of {name}", name) for each in tested]
    found = [_tested(each, f"{each.entry.check} check", f"{name} {each.entry.check}") for each in tested]
    return found + [
        Beside(each.at, "calibration", each.result == "pass", each.id, f"{name} calibration") for each in calibrated
    ]


def _tested(told: Tested, words: str, about: str) -> Beside:
    return Beside(told.at.at_ms, words, told.result == "good", told.told_in, about)


def _lines_of(sought: Sought, thing: Thing) -> set[str]:
    if thing.kind == "line":
        return {thing.name}
    tables = sought.tables
    if thing.kind == "bench":
        bench = tables.registers.benches.get(thing.name)
        return {bench.torch_line, bench.purge_line} if bench else set()
    found = set()
    for use in sought.uses:
        for line in use.lines:
            on = tables.gas.at(line, use.at.at_ms)
            if on and thing.name in (on.cylinder, on.fill_lot):
                found.add(line)
    return found


def _in_order(check: Beside) -> tuple[int, str]:
    return check.at_ms, check.entry


def _failed_in_order(cut: Cut) -> tuple[int, str]:
    return _in_order(cut.failed)


def _at_ms(check: Beside) -> int:
    return check.at_ms
