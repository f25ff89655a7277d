"""The checks beside the passes that shared a thing, and the cut one may make between the last good and a failed one."""

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from typing import Literal, NamedTuple

from server.facts.equipment import Calibration
from server.occasions.tables import Tables
from server.occasions.tested import Tested
from server.work.sought import EVER, Sought, Stretch
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


def checks_of(sought: Sought) -> Sequence[Beside]:
    """Give every check of what was asked by, in order: beads of lines, tests of instruments, coupons of welders."""
    about = dict.fromkeys(each for thing in sought.things for each in _abouts(sought, thing))
    lists = [_kept(sought.tables, *each) for each in about]
    if len(lists) == 1:
        return lists[0]
    found = {each.entry: each for checks in lists for each in checks}
    return sorted(found.values(), key=_in_order)


def around(checks: Sequence[Beside], first: int, last: int) -> Sequence[Beside]:
    """Keep the checks from just before the first pass to just after the last [ms, UTC]."""
    before, after = bisect_right(checks, first, key=_at_ms), bisect_right(checks, last, key=_at_ms)
    return checks[max(before - 1, 0) : after + 1]


def cuts_of(checks: Sequence[Beside]) -> list[Cut]:
    """Give, for each failed check, the stretch since the last good one of the same thing before it."""
    last_good: dict[str, list[Beside]] = {}
    found = []
    for each in checks:
        good = last_good.setdefault(each.about, [])
        if each.good:
            good.append(each)
        else:
            before = next((it for it in reversed(good) if it.at_ms < each.at_ms), None)
            found.append(Cut(each, before))
    return found


_Abouts = Literal["line", "instrument", "welder"]


def _abouts(sought: Sought, thing: Thing) -> list[tuple[_Abouts, str]]:
    """What the checks beside a thing are about."""
    if thing.kind in ("cylinder", "fill lot", "line", "bench"):
        return [("line", line) for line in sorted(_lines_of(sought, thing))]
    if thing.kind == "instrument" or thing.kind == "welder":
        return [(thing.kind, thing.name)]
    return []


def _kept(tables: Tables, about: _Abouts, name: str) -> Sequence[Beside]:
    """The checks of one thing in order; made once of the lists they stand in, which stay while no more are told."""
    tested = {"line": tables.gas.beads.get(name, ()), "welder": tables.coupons_of(name)}
    calibrated = tables.calibrations_of.get(name, ()) if about == "instrument" else ()
    told = tested.get(about, tables.checks_about(name)), calibrated
    return tables.made_of.kept(
        f"checks beside {about} {name}", told, lambda _: sorted(_of(about, name, *told), key=_in_order)
    )


def _of(about: _Abouts, name: str, tested: Iterable[Tested], calibrated: Iterable[Calibration]) -> list[Beside]:
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
    for use in sought.uses():
        for line in use.lines:
            on = tables.gas.at(line, use.at.at_ms)
            if on and thing.name in (on.cylinder, on.fill_lot):
                found.add(line)
    return found


def _in_order(check: Beside) -> tuple[int, str]:
    return check.at_ms, check.entry


def _at_ms(check: Beside) -> int:
    return check.at_ms
