"""The checks beside the passes that shared a thing, and the cut one may make between the last good and a failed one."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from server.occasions.tables import Tables
from server.occasions.tested import Tested
from server.occasions.uses import Use
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

    def holds(self, at_ms: int) -> bool:
        """Tell whether a moment lies in it [ms, UTC]."""
        return (self.since_ms is None or self.since_ms < at_ms) and at_ms < self.until_ms


def checks_of(tables: Tables, asked: Iterable[Thing], uses: Sequence[Use]) -> list[Beside]:
    """Give every check of what was asked by, in order: beads of lines, tests of instruments, coupons of welders."""
    found: dict[str, Beside] = {}
    for thing in asked:
        found |= {each.entry: each for each in _of(tables, thing, uses)}
    return sorted(found.values(), key=lambda each: (each.at_ms, each.entry))


def around(checks: Sequence[Beside], uses: Sequence[Use]) -> list[Beside]:
    """Keep the checks from just before the first pass to just after the last."""
    if not uses:
        return []
    first, last = uses[0].at.at_ms, uses[-1].at.at_ms
    before = [each for each in checks if each.at_ms <= first][-1:]
    after = [each for each in checks if each.at_ms > last][:1]
    return [*before, *(each for each in checks if first < each.at_ms <= last), *after]


def cuts_of(checks: Sequence[Beside]) -> list[Cut]:
    """Give, for each failed check, the stretch since the last good one of the same thing."""
    return [Cut(each, _last_good(checks, each)) for each in checks if not each.good]


def _last_good(checks: Sequence[Beside], failed: Beside) -> Beside | None:
    good = [each for each in checks if each.good and each.about == failed.about and each.at_ms < failed.at_ms]
    return good[-1] if good else None


def _of(tables: Tables, thing: Thing, uses: Sequence[Use]) -> list[Beside]:
    if thing.kind in ("cylinder", "fill lot", "line", "bench"):
        lines = sorted(_lines_of(tables, thing, uses))
        told = [bead for line in lines for bead in tables.gas.beads.get(line, ())]
        return [_tested(each, f"bead on {each.entry.line}", each.entry.line) for each in told]
    if thing.kind == "instrument":
        return _of_instrument(tables, thing.name)
    if thing.kind == "welder":
        own = tables.coupons_of(thing.name)
        return [_tested(each, f"coupon of {thing.name}", thing.name) for each in own]
    return []


def _of_instrument(tables: Tables, name: str) -> list[Beside]:
    about = tables.checks_about(name)
    found = [_tested(each, f"{each.entry.check} check", f"{name} {each.entry.check}") for each in about]
    calibrations = [each for each in tables.registers.calibrations.values() if each.instrument == name]
    return found + [
        Beside(each.at, "calibration", each.result == "pass", each.id, f"{name} calibration") for each in calibrations
    ]


def _tested(told: Tested, words: str, about: str) -> Beside:
    return Beside(told.at.at_ms, words, told.result == "good", told.told_in, about)


def _lines_of(tables: Tables, thing: Thing, uses: Sequence[Use]) -> set[str]:
    if thing.kind == "line":
        return {thing.name}
    if thing.kind == "bench":
        bench = tables.registers.benches.get(thing.name)
        return {bench.torch_line, bench.purge_line} if bench else set()
    found = set()
    for use in uses:
        for line in use.lines:
            on = tables.gas.at(line, use.at.at_ms)
            if on and thing.name in (on.cylinder, on.fill_lot):
                found.add(line)
    return found
