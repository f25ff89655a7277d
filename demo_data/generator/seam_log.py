"""Writes what a welder logs at one joint: the gap, the tack, the runs, the looks."""

from demo_data.generator.dice import Dice
from demo_data.generator.looks import tell_looks
from demo_data.generator.numbers import Values, counted, set_values, value
from demo_data.generator.oxygen import Oxygen
from demo_data.generator.shop import MACHINES, Shop
from demo_data.generator.story import Happening, Story
from demo_data.generator.tapping import tap
from demo_data.generator.weld import SECOND, Weld

NO_FILLER, NOT_ENTERED = "none", "-"


class SeamLog:
    """Writes joint after joint of one bench and day, remembering what was set at the start of the shift."""

    def __init__(self, shop: Shop, story: Story, oxygen: Oxygen) -> None:
        """Begin a bench's day with nothing set yet."""
        self.shop, self.story, self.oxygen = shop, story, oxygen
        self.set_up: set[str] = set()

    def tell(self, weld: Weld) -> None:
        """Write down everything about one joint."""
        dice = self.shop.dice("seam", weld.subject)
        if not weld.begun_before:
            self._gap(weld, dice)
            self._tack(weld, dice)
        ends = {"root": weld.root, "fill": weld.fill, "repair": weld.fill, "wash": weld.wash or weld.fill}
        for run in weld.runs:
            self._run(weld, run, ends[run], dice)
        if weld.pin.looks:
            tell_looks(self.shop, self.story, weld, dice)

    def _gap(self, weld: Weld, dice: Dice) -> None:
        if not weld.seam.structural:
            return
        drawn = f"{dice.lognormal(0.10, 0.5, 0, 0.28):.2f}"
        if weld.fate and weld.fate.quantity == "gap":
            drawn = weld.fate.value
        gap = weld.pin.gap_mm or drawn
        moment = weld.tack - round(dice.between(105, 150)) * SECOND
        moment = self.shop.plan.facts.get(("gap", weld.frame.number, weld.joint), moment)
        happening = self._entry(weld, moment, "gap", dice, values=value("gap", gap, "read", "GG-1"))
        happening.device = self.shop.other_tablet(happening.device, moment)

    def _tack(self, weld: Weld, dice: Dice) -> None:
        colour, tacked = int(dice.chance(0.12)), weld.tack
        if not weld.quiet and weld.seam.structural and dice.chance(0.015):
            self._entry(weld, tacked, "tack", dice, **self._lines(weld), sleeve=NO_FILLER, colour=4, removed=True)
            tacked += 95 * SECOND
        self._entry(weld, tacked, "tack", dice, **self._lines(weld), sleeve=NO_FILLER, colour=colour)

    def _run(self, weld: Weld, run: str, end: int, dice: Dice) -> None:
        quarters = weld.pin.quarters if run in ("fill", "repair") else ()
        share = len(quarters) / 4 if quarters else 1
        share = 1 if weld.pin.arc_s else share
        arc_s = weld.arc_ms * share / SECOND * dice.between(0.985, 1.015)
        if weld.fate and weld.fate.run == run and weld.fate.quantity == "travel":
            arc_s = weld.seam.seam_mm / float(weld.fate.value) * 60
        first = weld.procedure == "R1" or weld.procedure not in self.set_up
        self.set_up.add(weld.procedure)
        values = self._values(weld, run, end, arc_s, first, dice)
        started = end - round(float(values["arc_on"]["value"]) * SECOND if "arc_on" in values else arc_s * SECOND)
        happening = self._entry(
            weld, end, "pass", dice, run=run, **self._lines(weld), values=values, quarters=list(quarters) or None,
            sleeve=self.shop.sleeve(weld) if run in ("fill", "repair") else NO_FILLER,
            machine=MACHINES[weld.frame.bench], tungsten_type="ceriated" if first else None,
        )  # fmt: skip
        happening.moments["arc_started"] = started

    def _values(self, weld: Weld, run: str, end: int, arc_s: float, first: bool, dice: Dice) -> Values:
        settings = self.shop.settings(weld.frame.bench, weld.day, weld.procedure)
        if weld.pin.pre_purge:
            settings = settings._replace(pre_purge_flow=weld.pin.pre_purge[1])
        values = self.oxygen.values(weld, run, end) | set_values(settings, first)
        mean, volts = settings.mean * dice.between(0.99, 1.01), dice.normal(10, 0.35, 9.1, 10.9)
        if self.shop.counted(weld):
            values |= counted(MACHINES[weld.frame.bench], mean, volts, arc_s)
        elif weld.procedure == "R1":
            values |= value("arc_on", f"{arc_s:.1f}", "typed")
        values |= self._interpass(weld, run, dice)
        return self._as_settled(weld, run, values)

    def _interpass(self, weld: Weld, run: str, dice: Dice) -> Values:
        asked = weld.seam.structural and run == "fill" and weld.seam.number % 4 == 0
        unasked = weld.seam.structural and run != "root" and dice.chance(0.30)
        if weld.procedure == "R1":
            return value("interpass", dice.whole(26, 40), "typed", "CT-1")
        return value("interpass", dice.whole(32, 58), "typed", "CT-1") if asked or unasked else {}

    def _as_settled(self, weld: Weld, run: str, values: Values) -> Values:
        fate = weld.fate
        if fate and fate.run == run and fate.quantity in values:
            values[fate.quantity] = values[fate.quantity] | {"value": fate.value}
        for named, text in weld.pin.values.items():
            of, _, quantity = named.rpartition(".")
            if of in ("", run) and quantity in values:
                values[quantity] = values[quantity] | {"value": text}
        return {name: measured for name, measured in values.items() if measured["value"] != NOT_ENTERED}

    def _lines(self, weld: Weld) -> dict[str, str]:
        bench = weld.frame.bench
        return {"torch_line": f"{bench}-T", "purge_line": f"{bench}-P", "setup": weld.setup}

    def _entry(self, weld: Weld, moment: int, kind: str, dice: Dice, **fields: object) -> Happening:
        named: dict[str, object] = {"frame": weld.frame.serial, "joint": weld.joint}
        if weld.attempt > 1:
            named["attempt"] = weld.attempt
        happening = self.story.tell(
            moment, self.shop.tablet(weld), weld.welder, kind, **named, **fields, card=self.shop.card(weld)
        )
        tap(happening, weld, dice)
        return happening


