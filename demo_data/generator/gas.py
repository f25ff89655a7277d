"""Which cylinder hangs on which line when: changes about every seven working days (torch) or nine (purge)."""

from bisect import bisect_right
from dataclasses import dataclass
from datetime import date
from itertools import pairwise

from demo_data.generator.days import FIRST, LAST, WORKING_DAYS, at, clock_of, working_days_later
from demo_data.generator.dice import Dice
from demo_data.generator.plan import Plan

LINES = ("B1-T", "B1-P", "B2-T", "B2-P")
PERIOD = {"T": 7, "P": 9}
CHANGE_AT = "13:05"
PER_LOT = 12
_NUMBERS = ((FIRST, 276), (date(2025, 3, 11), 312), (date(2026, 2, 2), 660), (LAST, 840))
"""The supplier's numbers run on with other customers' cylinders between ours."""


@dataclass(frozen=True)
class Change:
    """A cylinder taken off a line and the next one put on."""

    at: int
    line: str
    off: str | None
    on: str
    lot: str


@dataclass
class Gas:
    """All changes in order, and the fill lots delivered for them."""

    changes: list[Change]
    lots: dict[str, date]
    """Fill lot, by name, and the day it was delivered."""
    cylinders: dict[str, tuple[str, ...]]

    def __post_init__(self) -> None:
        """Sort the changes per line, for asking what hung there."""
        self.by_line = {line: [change for change in self.changes if change.line == line] for line in LINES}
        self._times = {line: [change.at for change in changes] for line, changes in self.by_line.items()}
        self._on_day: dict[tuple[str, date], list[Change]] = {}
        for change in self.changes:
            self._on_day.setdefault((change.line, clock_of(change.at).date()), []).append(change)

    def on(self, line: str, moment_ms: int) -> str:
        """Give the cylinder on a line at a moment."""
        return self.by_line[line][bisect_right(self._times[line], moment_ms) - 1].on

    def changes_on(self, line: str, day: date) -> list[Change]:
        """Give the changes made on a line that day."""
        return self._on_day.get((line, day), [])


def lay_gas(plan: Plan, seed: int) -> Gas:
    """Lay out all changes: those settled, and between them those that come round by themselves."""
    moments = sorted(
        (moment, line, code) for line in LINES for moment, code in _moments(plan, line, Dice(seed, "gas", line))
    )
    stock = _Stock(plan, {code for _, _, code in moments if code})
    hung: dict[str, str] = {}
    changes = []
    for moment, line, code in moments:
        on = stock.take(code, clock_of(moment).date())
        changes.append(Change(moment, line, hung.get(line), on, stock.lot_of[on]))
        hung[line] = on
    return Gas(changes, stock.delivered, stock.cylinders)


def _moments(plan: Plan, line: str, dice: Dice) -> list[tuple[int, str | None]]:
    settled = sorted(plan.changes.get(line, []))
    first = working_days_later(FIRST, -1 - LINES.index(line))
    found: list[tuple[int, str | None]] = [(at(first, CHANGE_AT), None)]
    for moment, code in [*settled, (at(working_days_later(LAST, 1), CHANGE_AT), None)]:
        found += [(between, None) for between in _between(plan, line, found[-1][0], moment, dice)]
        found.append((moment, code))
    return found[:-1]


def _between(plan: Plan, line: str, after: int, before: int, dice: Dice) -> list[int]:
    days = [day for day in WORKING_DAYS if clock_of(after).date() < day < clock_of(before).date()]
    period = PERIOD[line[-1]]
    found, since = [], 0
    for index, day in enumerate(days):
        since += 1
        due = since >= period + dice.whole(-1, 1) and len(days) - index > period // 2
        if due and (line[:2], day) not in plan.quiet_days:
            found.append(at(day, CHANGE_AT))
            since = 0
    return found


class _Stock:
    """The cylinders in the rack: lots of twelve, used in the order of their numbers."""

    def __init__(self, plan: Plan, settled: set[str]) -> None:
        self.plan, self.kept_back = plan, settled | plan.never_connected
        self.delivered: dict[str, date] = {}
        self.cylinders: dict[str, tuple[str, ...]] = {}
        self.lot_of: dict[str, str] = {}
        self.base = 0
        self.left: list[str] = []

    def take(self, code: str | None, day: date) -> str:
        if code is None:
            if not self.left:
                self._deliver(max(self.base + PER_LOT, _number_on(day) // PER_LOT * PER_LOT), day)
            return self.left.pop(0)
        base = int(code[3:]) // PER_LOT * PER_LOT
        if code not in self.lot_of:
            self._deliver(base, day)
        return code

    def _deliver(self, base: int, day: date) -> None:
        codes = tuple(f"AR-{number:04d}" for number in range(base, base + PER_LOT))
        arrived = working_days_later(day, -2)
        name = next((self.plan.lot_names[c] for c in codes if c in self.plan.lot_names), f"FL-{arrived:%y-%m%d}")
        self.base = base
        self.delivered[name], self.cylinders[name] = arrived, codes
        self.lot_of |= dict.fromkeys(codes, name)
        self.left = [code for code in codes if code not in self.kept_back]


def _number_on(day: date) -> int:
    for (first, low), (last, high) in pairwise(_NUMBERS):
        if day <= last:
            return low + round((high - low) * max((day - first).days, 0) / (last - first).days)
    return _NUMBERS[-1][1]
