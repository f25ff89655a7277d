"""Who was qualified for what on which day: from issue, confirmations, coupons and use, by whole calendar months."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from datetime import date
from typing import NamedTuple

from server.facts.coupon_range import RangeTable, Span
from server.facts.design import Joint
from server.facts.occasion_pass import Standing
from server.facts.people import Confirmation, Qualification
from server.facts.published_ranges import published_ranges
from server.facts.registers import Registers
from server.occasions.continuity import Spell, confirmed_spell, used_spells
from server.occasions.qualified_range import Covered, covered_by

_NEVER: Mapping[str, Collection[int]] = {}


class Held(NamedTuple):
    """A qualification with its valid days, as date ordinals, and the range it covers."""

    qualification: Qualification
    spells: tuple[Spell, ...]
    covered: Covered

    @property
    def first(self) -> int:
        """The first valid day."""
        return self.spells[0][0]

    @property
    def last(self) -> int:
        """The last valid day."""
        return self.spells[-1][1]


def standings_of(
    registers: Registers,
    welded: Mapping[str, Collection[int]] = _NEVER,
    proved: Mapping[str, Collection[int]] = _NEVER,
    kept: "Standings | None" = None,
) -> "Standings":
    """Give all standings; `welded` and `proved` are the days of welds and of good coupons by welder.

    Of a welder who is among those kept, that is taken.
    """
    tables = {**published_ranges(), **registers.range_tables}
    return Standings(registers.qualifications.values(), registers.confirmations.values(), tables, welded, proved, kept)


class Standings:
    """All welders' qualifications in time."""

    def __init__(
        self,
        qualifications: Iterable[Qualification],
        confirmations: Iterable[Confirmation],
        tables: Mapping[str, RangeTable],
        welded: Mapping[str, Collection[int]] = _NEVER,
        proved: Mapping[str, Collection[int]] = _NEVER,
        kept: "Standings | None" = None,
    ) -> None:
        confirmed: dict[str, list[date]] = defaultdict(list)
        for each in confirmations:
            confirmed[each.qualification].append(each.dated)
        self.held: dict[str, list[Held]] = defaultdict(list, kept.held if kept else {})
        self._answers: dict[str, dict[tuple[str, str, int], Standing]] = dict(kept._answers) if kept else {}
        for of in qualifications:
            if kept and of.welder in kept.held:
                continue
            spells = (
                used_spells(of, welded.get(of.welder, ()), proved.get(of.welder, ()))
                if of.continuity == "used"
                else confirmed_spell(of, confirmed[of.id])
            )
            self.held[of.welder].append(Held(of, spells, covered_by(of, tables)))

    def without(self, welders: Collection[str]) -> "Standings":
        """Give those of all other welders."""
        found = Standings((), (), {})
        found.held.update((name, each) for name, each in self.held.items() if name not in welders)
        # Whoever asks the others goes on reading into their answers: they stand the same.
        found._answers = {name: each for name, each in self._answers.copy().items() if name not in welders}
        return found

    def on(self, welder: str, joint: Joint, frame_design: str, procedures: tuple[str, ...], day: int) -> Standing:
        """Tell how a welder stood for one joint on one day; a repair is covered like the joint's own procedure."""
        key = (f"{frame_design}/{joint.id}", procedures[-1], day)
        answers = self._answers.setdefault(welder, {})
        found = answers.get(key)
        if found is None:
            found = answers[key] = _standing(self.held.get(welder, []), joint, procedures, day)
        return found


class KeptStandings:
    """The standings made last, with what they were made of: of a welder of whom nothing was told since they hold."""

    def __init__(
        self,
        registers: Registers | None = None,
        welded: Mapping[str, object] = _NEVER,
        proved: Mapping[str, object] = _NEVER,
        made: Standings | None = None,
    ) -> None:
        self._rests_on = _rests_on(registers) if registers else ()
        self._welded, self._proved, self._made = welded, proved, made

    def still(
        self, registers: Registers, used: Iterable[str], welded: Mapping[str, object], proved: Mapping[str, object]
    ) -> Standings | None:
        """Give those that still hold; `used` are the welders whose qualifications go on by use."""
        same = len(self._rests_on) and all(map(_same, self._rests_on, _rests_on(registers)))
        if self._made is None or not same:
            return None
        pairs = (self._welded, welded), (self._proved, proved)
        return self._made.without({name for name in used if any(a.get(name) is not b.get(name) for a, b in pairs)})


def _rests_on(registers: Registers) -> tuple[object, ...]:
    return registers.qualifications, registers.confirmations, registers.range_tables, registers.designs


def _same(one: object, other: object) -> bool:
    return one is other


def _standing(held: list[Held], joint: Joint, procedures: tuple[str, ...], day: int) -> Standing:
    covering = [each for each in held if set(procedures) & set(each.qualification.procedures)]
    if not covering:
        return Standing(None, False, f"no qualification for {' or '.join(dict.fromkeys(procedures))}")
    fitting = [each for each in covering if _misfit(each.covered, joint) is None]
    if not fitting:
        nearest = covering[-1]
        return Standing(
            nearest.qualification.id, False, f"{nearest.qualification.id}: {_misfit(nearest.covered, joint)}"
        )
    valid = [(last, each) for each in fitting for first, last in each.spells if first <= day <= last]
    if valid:
        last, best = max(valid, key=_until)
        return Standing(best.qualification.id, True, "", last)
    return _lapsed(fitting, day)


def _lapsed(fitting: list[Held], day: int) -> Standing:
    earlier = [(last, each) for each in fitting for _, last in each.spells if last < day]
    if earlier:
        last, nearest = max(earlier, key=_until)
        lapsed = date.fromordinal(last).isoformat()
        return Standing(nearest.qualification.id, False, f"{nearest.qualification.id} lapsed {lapsed}", last)
    first = min(fitting, key=_first)
    issued = first.qualification.issued.isoformat()
    return Standing(first.qualification.id, False, f"{first.qualification.id} was issued only {issued}")


def _misfit(covered: Covered, joint: Joint) -> str | None:
    if covered.trouble:
        return covered.trouble
    if (said := _beyond(joint.thickness_mm, covered.thickness_mm, "thickness")) is not None:
        return said
    return _beyond(joint.diameter_mm, covered.diameter_mm, "diameter")


def _beyond(value_mm: float | None, span: Span | None, words: str) -> str | None:
    if value_mm is None or span is None:
        return None
    low, high = span
    if value_mm < low or (high is not None and value_mm > high):
        span_words = f"{low:g} to {high:g} mm" if high is not None else f"{low:g} mm and over"
        return f"{words} {value_mm:g} mm, qualified for {span_words}"
    return None


def _until(found: tuple[int, Held]) -> int:
    return found[0]


def _first(held: Held) -> int:
    return held.first
