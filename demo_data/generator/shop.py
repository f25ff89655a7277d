"""The shop around the welds: which tablet, analyser, cylinder, sleeve and limit card serve at which moment."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date

from demo_data.generator.crew import procedure_letters
from demo_data.generator.days import MINUTE, at, clock_of
from demo_data.generator.dice import Dice
from demo_data.generator.frames import Frame
from demo_data.generator.gas import Gas
from demo_data.generator.numbers import Settings, settings_for
from demo_data.generator.plan import Plan
from demo_data.generator.sleeves import Sleeve
from demo_data.generator.weld import Weld

TABLETS = {"B1": "TAB-A", "B2": "TAB-B"}
QUALITY_TABLET, APPRENTICE_TABLET = "TAB-Q", "TAB-C"
MACHINES = {"B1": "PS-1", "B2": "PS-2"}
CABLE_OUT = ("B2", date(2025, 11, 18), date(2025, 11, 20))


@dataclass
class Shop:
    """Everything an entry looks up when it is written."""

    seed: int
    plan: Plan
    frames: dict[int, Frame]
    gas: Gas
    sleeves: list[Sleeve]
    sleeve_for: Callable[[str, str, int], Sleeve]
    cards: dict[tuple[str, str], str]
    """Digest of the limit card by procedure and revision."""
    spare_analyser: tuple[int, int] = (0, 0)
    """From when until when the spare hung at the second bench [ms]."""
    drawer: tuple[int, int] = (0, 0)
    """From when until when the apprentice's tablet lay in a drawer [ms]."""
    barred: frozenset[date] = frozenset()
    """Days on which the apprentice may weld no joints, his coupon having failed."""
    _settings: dict[tuple[str, date, str], Settings] = field(default_factory=dict)

    def dice(self, *names: object) -> Dice:
        """Give the draws for one named thing."""
        return Dice(self.seed, *names)

    def settings(self, bench: str, day: date, procedure: str) -> Settings:
        """Give what stands on a bench's panel for a procedure that day."""
        key = (bench, day, procedure)
        if key not in self._settings:
            drawn = settings_for(procedure, self.dice("settings", *key))
            settled = self.plan.facts.get(("post flow", bench), {}).get(day)
            self._settings[key] = drawn._replace(post_flow=settled) if settled else drawn
        return self._settings[key]

    def tablet(self, weld: Weld) -> str:
        """Give the tablet a weld is logged on."""
        if weld.pin.device:
            return weld.pin.device
        if weld.welder == "W04" and not weld.seam.structural and not self.drawer[0] <= weld.tack <= self.drawer[1]:
            return APPRENTICE_TABLET
        return TABLETS[weld.frame.bench]

    def other_tablet(self, tablet: str, moment_ms: int) -> str:
        """Give the tablet that taps what is neither weld nor look, where that is settled."""
        for named, first, last, instead in self.plan.tablets:
            if named == tablet and first <= moment_ms < last:
                return instead
        return tablet

    def analyser(self, bench: str, moment_ms: int) -> str:
        """Give the oxygen analyser at a bench."""
        if bench == "B1":
            return "PA-1"
        return "PA-3" if self.spare_analyser[0] <= moment_ms < self.spare_analyser[1] else "PA-2"

    def card(self, weld: Weld) -> str | None:
        """Give the digest of the card the tablet shows."""
        letters = procedure_letters(weld.day)
        name, letter = (weld.pin.card or f"{weld.procedure} {letters[weld.procedure]}").split()
        return self.cards.get((name, letter))

    def sleeve(self, weld: Weld) -> str | None:
        """Give the rod sleeve a fill names; none where nobody scanned one."""
        if weld.pin.sleeve is not None:
            return weld.pin.sleeve or None
        use = {"T3": "fittings", "R1": "repairs"}.get(weld.procedure, "joints")
        return self.sleeve_for(weld.frame.bench, use, weld.fill).code

    def counted(self, weld: Weld) -> bool:
        """Say whether the power source's counter reached the tablet."""
        bench, first, last = CABLE_OUT
        return not (weld.frame.bench == bench and first <= weld.day <= last)


def quiet_spans(shop: Shop, bench: str, day: date) -> list[tuple[int, int]]:
    """Give the minutes in which gas is changed and tried, so that nobody welds."""
    lines = (f"{bench}-T", f"{bench}-P") if bead_at_change(day) else (f"{bench}-T",)
    changes = [change.at for line in lines for change in shop.gas.changes_on(line, day)]
    return [(at_ms - 2 * MINUTE, at_ms + 13 * MINUTE) for at_ms in changes]


def bead_at_change(day: date) -> bool:
    """Say whether a purge bead is asked for at every purge cylinder change."""
    return day >= date(2025, 5, 5)


def end_of_shift(moment_ms: int) -> int:
    """Give the end of the shift of that day [ms]."""
    return at(clock_of(moment_ms).date(), "16:43")
