"""Which rod sleeves are open at which bench: one for joints, one for fittings, one of thin rod for repairs."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property
from itertools import pairwise

from demo_data.generator.days import FIRST, LAST, at, working
from demo_data.generator.plan import Plan

FIRST_NUMBER, LAST_NUMBER = 150, 275
_ISSUED = (
    (FIRST, 150), (date(2025, 3, 6), 158), (date(2025, 8, 11), 188), (date(2025, 8, 22), 194),
    (date(2025, 10, 10), 203), (LAST, 276),
)  # fmt: skip
_BEFORE = (("FT-0148", "B2"), ("FT-0149", "B1"), ("FT-0139", "B2"), ("FT-0147", "B1"), ("FT-0140", "B2"))
"""Sleeves of the year before, opened anew when the record begins: joints, fittings and repairs."""


@dataclass
class Sleeve:
    """A sleeve at a bench, from its opening to its closing [ms]; none: open at the end."""

    code: str
    bench: str
    opened: int
    closed: int | None = None

    @cached_property
    def number(self) -> int:
        """The number printed on it."""
        return int(self.code[3:])

    @cached_property
    def use(self) -> str:
        """What it is kept for."""
        return _use(self.number)

    @property
    def rod_mm(self) -> str:
        """Rod diameter."""
        return "0.9" if self.number % 7 == 0 else "1.1"

    @property
    def lot(self) -> str:
        """Filler lot, by when it was opened."""
        if self.use == "fittings":
            return "F2-D01" if self.opened < at(date(2025, 7, 2), "00:00") else "F2-D02"
        if self.opened < at(date(2025, 6, 17), "00:00"):
            return "F9-A07"
        return "F9-A11" if self.opened < at(date(2025, 11, 25), "00:00") else "F9-B02"

    @property
    def filler_class(self) -> str:
        """The class its lot is of."""
        return "ERTi-2" if self.lot.startswith("F2") else "ERTi-9"


def lay_sleeves(plan: Plan) -> list[Sleeve]:
    """Lay out all sleeves; those an incident settles stand as they are, the others come round about them."""
    sleeves = [Sleeve(code, bench, at(FIRST, f"07:{33 + index}")) for index, (code, bench) in enumerate(_BEFORE)]
    settled = {code: (bench, opened, closed) for code, bench, opened, closed in plan.sleeves}
    benches: dict[str, str] = {}
    for number in range(FIRST_NUMBER, LAST_NUMBER + 1):
        code, use = f"FT-{number:04d}", _use(number)
        bench, opened, closed = settled.get(code, (_other(benches.get(use, "B2")), None, None))
        benches[use] = bench
        moment = opened or at(_free_day(plan, bench, _day_of(number)), f"07:{41 + number % 5}")
        if moment < at(LAST, "08:00"):
            sleeves.append(Sleeve(code, bench, moment, closed))
    _close_in_turn(sleeves)
    return sorted(sleeves, key=lambda sleeve: sleeve.opened)


def sleeve_for(sleeves: list[Sleeve]) -> Callable[[str, str, int], Sleeve]:
    """Give the asking function: the newest sleeve open at a bench for a use at a moment."""

    kept: dict[tuple[str, str], list[Sleeve]] = {}
    for sleeve in sleeves:
        kept.setdefault((sleeve.bench, sleeve.use), []).append(sleeve)

    def ask(bench: str, use: str, moment_ms: int) -> Sleeve:
        fitting = [s for s in kept[bench, use] if s.opened <= moment_ms]
        still = [s for s in fitting if s.closed is None or s.closed > moment_ms]
        return still[-1]

    return ask


def _use(number: int) -> str:
    if number % 10 == 9:
        return "fittings"
    return "repairs" if number % 7 == 0 else "joints"


def _other(bench: str) -> str:
    return "B1" if bench == "B2" else "B2"


def _day_of(number: int) -> date:
    for (first, low), (last, high) in pairwise(_ISSUED):
        if number < high:
            return first + timedelta(days=round((last - first).days * (number - low) / (high - low)))
    return LAST


def _free_day(plan: Plan, bench: str, day: date) -> date:
    while not working(day) or (bench, day) in plan.quiet_days:
        day += timedelta(days=1)
    return day


def _close_in_turn(sleeves: list[Sleeve]) -> None:
    """Close a sleeve a minute before the next of its use is opened at its bench, where nothing else is settled."""
    for sleeve in sleeves:
        same = [s.opened for s in sleeves if (s.bench, s.use) == (sleeve.bench, sleeve.use)]
        later = [opened for opened in same if opened > sleeve.opened]
        if sleeve.closed is None and later:
            sleeve.closed = min(later) - 60_000
