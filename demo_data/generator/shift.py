"""Writes what is tried before the first arc and every week: beads, analysers, coupons, hoses, dew point, the scope."""

from datetime import date

from demo_data.generator.crew import CALLED, REVISED, STRUCTURAL_FROM
from demo_data.generator.days import DAY, FIRST, MINUTE, at, working_days_later
from demo_data.generator.gas import Change
from demo_data.generator.numbers import value
from demo_data.generator.oxygen import as_wetted
from demo_data.generator.shop import QUALITY_TABLET, TABLETS, Shop, bead_at_change
from demo_data.generator.signing import key, signatures
from demo_data.generator.story import Happening, Story
from demo_data.generator.weld import SECOND

MONDAY, THURSDAY, FRIDAY = 0, 3, 4
MISSED = 0.015


class Shift:
    """Writes the checks of one day; `early` moves a bench's morning forward when it starts before the shift."""

    def __init__(
        self, shop: Shop, story: Story, day: date, wet: bool, used: frozenset[tuple[str, date]] = frozenset()
    ) -> None:
        """Take up a day; `wet`: the second bench's meter reads too low; `used`: benches and days of welds told."""
        self.shop, self.story, self.day, self.wet, self.used = shop, story, day, wet, used
        self.skipped = shop.plan.skipped

    def tell(self, benches: tuple[str, ...] = ("B1", "B2")) -> None:
        """Write everything tried that day."""
        for bench in benches:
            self._morning(bench)
            for line in (f"{bench}-T", f"{bench}-P"):
                for change in self.shop.gas.changes_on(line, self.day):
                    self.change(bench, change)
        self._coupons()
        if self.day.weekday() == MONDAY:
            self._weekly()
        if self.day.weekday() == FRIDAY:
            self._cross_check()

    def lead(self, bench: str) -> str:
        """Give who tries the gas at a bench in the morning."""
        if bench == "B1":
            return "W01"
        return "W03" if self.day in CALLED else "W02"

    def _morning(self, bench: str) -> None:
        dice = self.shop.dice("morning", bench, self.day)
        ordinary = at(self.day, "07:32") + dice.whole(0, 200) * SECOND
        begin = self.shop.plan.facts.get(("morning", bench, self.day), ordinary)
        if not self._missed("torch bead", bench):
            self.bead(bench, "T", begin, "shift")
        if not self._missed("air check", bench):
            self._air_check(bench, begin + 5 * MINUTE)
        first = self.day == FIRST
        if (self.day.weekday() == FRIDAY or first) and not self._missed("purge bead", bench):
            self.bead(bench, "P", at(self.day, "07:45"), "weekly")

    def bead(self, bench: str, line: str, moment: int, why: str, result: str = "good", grade: int = 0) -> Happening:
        """Write a test bead run with one gas line."""
        dice = self.shop.dice("bead", bench, line, moment)
        named = f"{bench}-{line}"
        return self.story.tell(
            moment, self.tablet(bench), self.lead(bench), "bead", moment + dice.whole(15, 50) * SECOND, line=named,
            cylinder=self.shop.gas.on(named, moment), result=result, grade=grade, why=why, photo=dice.hexes(64),
        )  # fmt: skip

    def _missed(self, what: str, bench: str) -> bool:
        if (what, (bench, self.day)) in self.skipped:
            return True
        quiet = (bench, self.day) in self.shop.plan.quiet_days or self.day == FIRST or self.wet
        missed = not quiet and self.shop.dice("missed", what, bench, self.day).chance(MISSED)
        if missed and what != "air check":
            line, days = f"{bench}-{what[0].upper()}", self._week() if what == "purge bead" else [self.day]
            missed = not any(self.shop.gas.changes_on(line, day) for day in days)
        if missed:
            self._decided(what, bench)
        return missed

    def _week(self) -> list[date]:
        return [self.day - number * DAY for number in range(self.day.weekday() + 1)]

    def _decided(self, what: str, bench: str) -> None:
        days = self._week() if what == "purge bead" else [self.day]
        in_use = [day for day in days if (bench, day) in self.used]
        if not in_use:
            return
        thing = {"torch bead": f"{bench}-T", "purge bead": f"{bench}-P", "air check": f"PA-{bench[1]}"}[what]
        subject, question = f"{thing}@{max(in_use)}", f"{what.replace(' ', '-')}-due"
        self.story.find("chance", subject, question, "decide", "unknown")
        signed = at(working_days_later(self.day, 1), "09:05")
        words = "Forgotten; the check before and the one after were good, and nothing looked at points to harm."
        self.story.sign(
            signed, "decision", f"D-{thing}-{self.day}", choice="accept", findings=[key(subject, question)],
            reason=words, signatures=signatures(signed, words, "Q01"),
        )  # fmt: skip

    def _air_check(self, bench: str, moment: int) -> None:
        # In air a meter for traces goes off the top of its scale: it is seen to answer, there is no figure.
        self._check(moment, bench, "air", self.shop.analyser(bench, moment))

    def _check(self, moment: int, bench: str, check: str, subject: str, **fields: object) -> None:
        fields.setdefault("result", "good")
        tablet = self.tablet(bench)
        self.story.tell(moment, tablet, self.lead(bench), "check", check=check, subject=subject, **fields)

    def tablet(self, bench: str) -> str:
        """Give the tablet a check is tapped on."""
        return str(self.shop.plan.facts.get(("checks on", bench, self.day), TABLETS[bench]))

    def change(self, bench: str, change: Change) -> None:
        """Write a cylinder change, and the bead that follows it where one is asked for."""
        if ("change", change.at) in self.skipped:
            return
        dice = self.shop.dice("change", change.line, change.at)
        purge = change.line.endswith("P")
        full = value("pressure", dice.whole(186, 194), "typed")
        spent = value("pressure", dice.whole(68, 73), "typed") if change.off else None
        self.story.tell(
            change.at, self.tablet(bench), self.lead(bench), "cylinder", line=change.line, off=change.off, on=change.on,
            fill_lot=change.lot, kept_flowing=purge or None, values=full, off_values=spent,
        )  # fmt: skip
        if not purge or bead_at_change(self.day):
            self.bead(bench, change.line[-1], change.at + 7 * MINUTE, "change")

    def _coupons(self) -> None:
        if self.day.weekday() in (MONDAY, THURSDAY):
            self.coupon("W01", "B1")
            self.coupon("W02", "B2")
            if self.day >= STRUCTURAL_FROM:
                self.coupon("W04", "B1")
        if self.day in CALLED and working_days_later(self.day, -1) not in CALLED:
            self.coupon("W03", "B2")

    def coupon(self, welder: str, bench: str, clock: str = "07:50") -> None:
        """Write a coupon welded and bent at once."""
        if ("coupon", (welder, self.day)) in self.skipped:
            return
        dice = self.shop.dice("coupon", welder, self.day)
        moment = self.shop.plan.facts.get(("coupon", welder, self.day), at(self.day, clock))
        self.story.tell(
            moment, self.tablet(bench), welder, "coupon", welder=welder, procedures=["T1", "T2"], result="good",
            photo=dice.hexes(64),
        )  # fmt: skip

    def _weekly(self) -> None:
        for bench in ("B1", "B2"):
            for number, line in enumerate((f"{bench}-T", f"{bench}-P")):
                moment = at(self.day, f"07:2{1 + 3 * number}")
                self._check(moment, bench, "leak", line)
                if self.day >= REVISED:
                    shown = value("dew_point", -self.shop.dice("dew", line, self.day).whole(61, 66), "read", "DP-1")
                    self._check(moment + MINUTE, bench, "dew point", line, values=shown)
        self._check(at(self.day, "07:29"), "B1", "function", "BS-1")

    def _cross_check(self) -> None:
        if ("cross", self.day) in self.skipped:
            return
        moment = at(self.day, "17:05")
        dice = self.shop.dice("cross", self.day)
        one, two = self.shop.plan.facts.get(("cross", self.day), self._agreeing(dice.whole(7, 11), dice.whole(-1, 1)))
        good = abs(one - two) <= 3
        self.story.tell(
            moment, QUALITY_TABLET, "Q01", "check", check="cross", subject="PA-2", against="PA-1",
            result="good" if good else "failed", values=value("oxygen", two, "read", "PA-2"),
            other_values=value("oxygen", one, "read", "PA-1"), acted_on=None if good else False,
        )  # fmt: skip

    def _agreeing(self, one: int, apart: int) -> tuple[int, int]:
        return one, as_wetted(one) if self.wet else one + apart
