"""Every look-up table of the shop as known at one record position; carried on by what is told from then on."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from datetime import date
from functools import cached_property
from typing import NamedTuple

from server.facts.recorded import Recorded
from server.occasions.about import About
from server.occasions.clocks import Boot, Clocks
from server.occasions.corrections import Corrections
from server.occasions.cross_checks import by_figures, with_differences
from server.occasions.curves import Curves
from server.occasions.days import Days
from server.occasions.failed import Failed, Tests
from server.occasions.failed_checks import FailedCheck
from server.occasions.filed import refiled
from server.occasions.gas import GasRules, GasTable
from server.occasions.known import Known
from server.occasions.made_of import MadeOf
from server.occasions.narrowed import Cuts, facts_under, true_from_curve
from server.occasions.pictures import Pictures
from server.occasions.register_tables import RegisterTables
from server.occasions.rods import Rods
from server.occasions.standings import KeptStandings, Standings, standings_of
from server.occasions.tested import Results, Tested, tested_in_order
from server.occasions.timed import Timed, in_order, in_true_time
from server.occasions.uses import Use, Uses, use_of

_SHARED = ("bead", "coupon", "check", "cylinder", "sleeve", "trace", "arrived")


class Settled(NamedTuple):
    """The clocks and corrections with further ones told; the boots and the entries that may stand otherwise by them."""

    clocks: Clocks
    corrections: Corrections
    boots: frozenset[Boot] = frozenset()
    entries: frozenset[str] = frozenset()


class _Changes(NamedTuple):
    """By kind: the entries as they stood and do no more, and as they stand from now on."""

    gone: Mapping[str, list[Timed]]
    more: Mapping[str, list[Timed]]

    def of(self, kind: str) -> tuple[list[Timed], list[Timed]]:
        """Give those of one kind."""
        return self.gone[kind], self.more[kind]


class _Told(NamedTuple):
    """What was told of each thing, in true time."""

    beads: Results
    coupons: Results
    of_welder: Mapping[str, Sequence[Tested]]
    checks: Mapping[str, Sequence[Tested]]
    sleeves: Mapping[str, Sequence[Timed]]
    traces: Mapping[str, Sequence[Timed]]


_NOTHING_TOLD = _Told(Results(), Results(), {}, {}, {}, {})


class Tables(RegisterTables):
    """All tables; made of everything known, or of those before with what was told since and stands otherwise by it."""

    days: Days
    end_ms: int
    gas: GasTable
    uses: Uses
    rods: Rods
    pictures: Pictures
    failed: Failed
    cuts: Cuts
    curves: Curves
    made_of: MadeOf
    returned: Mapping[str, int]
    """When each frame that ever came back did so last [ms, as the device said]."""
    _told: _Told
    _facts: Mapping[str, Timed]
    _kept: KeptStandings

    def __init__(
        self, known: Known, on: date | None, before: "Tables | None" = None, settled: Settled | None = None
    ) -> None:
        super().__init__(known.registers, on, before)
        self.known_at = known.known_at
        settled = settled or Settled(Clocks(known.clocks), Corrections(known.shared))
        self.clocks, self.corrections = settled.clocks, settled.corrections
        self.days = before.days if before else Days(self.registers.zone)
        self.end_ms = _last_known_ms(known, before.end_ms if before else 0)
        self.today = self.days.day_of(self.end_ms)
        self.returned = _returned(known, before.returned if before else {})
        self.made_of = MadeOf(before.made_of if before else None)
        self._kept = before._kept if before else KeptStandings()
        self._take(self._changes(known, before), before)

    def settled(self, more: Known) -> Settled:
        """Give what further lines settle anew; what was told before by these boots, and these entries, is to come
        again with the lines when the tables are carried on."""
        clocks, boots = self.clocks.with_more(more.clocks)
        corrections, entries = self.corrections.with_more(more.shared)
        facts = facts_under(more.registers) - facts_under(self.registers)
        return Settled(clocks, corrections, frozenset(boots), frozenset(entries | facts))

    @cached_property
    def beads(self) -> list[Tested]:
        """Every bead in true time."""
        return _in_true_time(self.gas.beads)

    @cached_property
    def coupons(self) -> list[Tested]:
        """Every coupon in true time."""
        return _in_true_time(self._told.of_welder)

    @cached_property
    def checks(self) -> list[Tested]:
        """Every check in true time."""
        return _in_true_time(self._told.checks)

    @cached_property
    def standings(self) -> Standings:
        """The welders' qualifications in time."""
        used = {each.welder for each in self.registers.qualifications.values() if each.continuity == "used"}
        kept = self._kept.still(self.registers, used, self.uses.by_welder, self.tested_welders)
        anew = used - kept.held.keys() if kept else used
        welded = {welder: {use.day for use in self.uses.by_welder.get(welder, ())} for welder in anew}
        found = standings_of(self.registers, welded, {welder: self._days_proved(welder) for welder in anew}, kept)
        self._kept = KeptStandings(self.registers, self.uses.by_welder, self.tested_welders, found)
        return found

    def read(self, recorded: Iterable[Recorded]) -> list[Timed]:
        """Give entries as they stand, in true time."""
        return in_true_time(self.corrections.applied(list(recorded)), self.clocks)

    def moment_of(self, fact: str) -> int | None:
        """Give the true time of the shared entry that a narrowing rests on, by its id."""
        found = self._facts.get(fact)
        return found.at.at_ms if found else None

    def procedure_of(self, use: Use) -> str | None:
        """Give the name of the procedure a pass was made under."""
        joint = self.joint_of(use.frame, use.joint)
        return joint.procedure if joint else None

    def over_by_curve(self, use: Use) -> bool:
        """Tell whether a reading put right by a signed curve lies over the limit of its day."""
        failed = self.curves.for_reading(use.oxygen_by, use.at.at_ms)
        procedure = self.procedure_of(use)
        if failed is None or use.oxygen_ppm is None or procedure is None:
            return False
        limit = self.revisions.limits(self.revisions.judged_by(procedure, use.day), "", use.run).get("oxygen")
        high = limit.high if limit else None
        return high is not None and true_from_curve(failed.as_found, use.oxygen_ppm) > high

    def every_failed(self) -> Sequence[FailedCheck]:
        """Give every failed check, kind by kind."""
        return self.failed.every()

    def checks_about(self, thing: str) -> Sequence[Tested]:
        """Give the checks of one thing, in true time."""
        return self._told.checks.get(thing, ())

    def coupons_of(self, welder: str) -> Sequence[Tested]:
        """Give the coupons of a welder, in true time."""
        return self._told.of_welder.get(welder, ())

    @property
    def told_checks(self) -> Mapping[str, Sequence[Tested]]:
        """The checks of each thing, in true time."""
        return self._told.checks

    @property
    def told_sleeves(self) -> Mapping[str, Sequence[Timed]]:
        """What was logged of each sleeve, in true time."""
        return self._told.sleeves

    def cuts_rest_on(self, other: "Tables") -> bool:
        """Tell whether what narrows suspect sets is the same here and there, also the entries it rests on."""
        return self._facts == other._facts

    @property
    def tested_welders(self) -> Mapping[str, Sequence[Tested]]:
        """The coupons of each welder who made one, in true time."""
        return self._told.of_welder

    def checks_of(self, about: About) -> Sequence[Tested]:
        """Give every check in true time, or those of some things."""
        return self.checks if about is None else _in_true_time(_some(self._told.checks, about))

    def coupons_told(self, about: About) -> Sequence[Tested]:
        """Give every coupon in true time, or those of some welders."""
        return self.coupons if about is None else _in_true_time(_some(self._told.of_welder, about))

    def trace_of(self, entry: str) -> Timed | None:
        """Give the last recording told of a pass."""
        told = self._told.traces.get(entry)
        return told[-1] if told else None

    def _changes(self, known: Known, before: "Tables | None") -> _Changes:
        changes = _Changes(defaultdict(list), defaultdict(list))
        for kinds, recorded in ((_SHARED, known.shared), (("pass",), known.passes), (("photo",), known.photos)):
            told_before = [each for each in recorded if before and each.position <= before.known_at]
            then = {each.position: each for each in (before.read(told_before) if before else ())}
            for told in self.read(recorded):
                if told.entry.kind not in kinds:
                    continue
                if then.get(told.position) == told:
                    del then[told.position]
                else:
                    changes.more[told.entry.kind].append(told)
            for told in (each for each in then.values() if each.entry.kind in kinds):
                changes.gone[told.entry.kind].append(told)
        self._facts = self._facts_of(known, before._facts if before else {})
        return changes

    def _facts_of(self, known: Known, before: Mapping[str, Timed]) -> Mapping[str, Timed]:
        wanted = facts_under(known.registers)
        told = [each for each in known.shared if each.entry.id in wanted]
        if not told and before.keys() <= wanted:
            return before
        known_before = {name: each for name, each in before.items() if name in wanted}
        for each in told:
            known_before.pop(each.entry.id, None)
        return known_before | {each.entry.id: each for each in self.read(told)}

    def _take(self, changes: _Changes, before: "Tables | None") -> None:
        """Carry each table on by what changes in it."""
        registers, told = self.registers, before._told if before else _NOTHING_TOLD
        rules = GasRules(registers.fill_lots, self.lot_of, self.purge_lines, self.days, self.accepted)
        checks = before._checks_by(self) if before else told.checks
        beads, gone_beads, more_beads = told.beads.with_changes(*changes.of("bead"))
        coupons, gone_coupons, more_coupons = told.coupons.with_changes(*changes.of("coupon"))
        gone_checks, more_checks = (with_differences(each, self.days, self.at) for each in changes.of("check"))
        self._told = _Told(
            beads,
            coupons,
            refiled(told.of_welder, gone_coupons, more_coupons, lambda each: (each.entry.welder,), tested_in_order),
            refiled(checks, gone_checks, more_checks, lambda each: (each.entry.subject,), tested_in_order),
            refiled(told.sleeves, *changes.of("sleeve"), lambda each: (each.entry.sleeve,), in_order),
            refiled(told.traces, *changes.of("trace"), lambda each: (each.entry.of,), in_order),
        )
        gas = before.gas if before else GasTable(rules)
        self.gas = gas.with_changes(rules, changes.of("cylinder"), (gone_beads, more_beads))
        gone, more = ([use_of(each, self.days) for each in passes] for passes in changes.of("pass"))
        self.uses = (before.uses if before else Uses(self.gas, self.days)).with_changes(gone, more, self.gas)
        self.rods = Rods(self._told.sleeves, registers.sleeves, registers.filler_lots, before.rods if before else None)
        pictures = before.pictures if before else Pictures(self.accepted, self.days)
        self.pictures = pictures.with_changes(self.accepted, changes.of("photo"), changes.of("arrived"))
        self._take_failed(before)

    def _checks_by(self, others: "Tables") -> Mapping[str, Sequence[Tested]]:
        """The checks known so far, as good as they are by the acceptance figures of others."""
        if others.accepted is self.accepted:
            return self._told.checks
        return {thing: by_figures(told, others.days, others.at) for thing, told in self._told.checks.items()}

    def _take_failed(self, before: "Tables | None") -> None:
        told = self._told
        calibrated, in_turn = self.calibrations_of, self.calibrations_told
        tests = Tests(self.gas.beads, told.of_welder, told.checks, calibrated, self.purge_lines, in_turn)
        same = before is not None and before.accepted is self.accepted
        self.failed = Failed(tests, self.accepted, self.days, before.failed if before and same else None)
        narrowings = self.registers.narrowings
        told_before = before is not None and before.registers.narrowings is narrowings
        known = before.cuts if before and told_before and before._facts is self._facts else None
        self.cuts = known or Cuts(narrowings.values(), self.moment_of)
        self.curves = Curves(self.failed, self.cuts)

    def _days_proved(self, welder: str) -> set[int]:
        return {self.days.day_of(each.at.at_ms) for each in self.coupons_of(welder) if each.result == "good"}


def _last_known_ms(known: Known, before_ms: int) -> int:
    if known.now_ms is not None:
        return known.now_ms
    return max(before_ms, max((each.received_ms for each in (*known.shared, *known.passes)), default=0))


def _returned(known: Known, before: Mapping[str, int]) -> Mapping[str, int]:
    if not known.returned:
        return before
    found = dict(before)
    for it in (each.entry for each in known.returned):
        if it.kind == "stage" and it.stage == "returned":
            found[it.frame] = max(it.happened, found.get(it.frame, it.happened))
    return before if found == before else found


def _some(tests: Mapping[str, Sequence[Tested]], about: Collection[str]) -> Mapping[str, Sequence[Tested]]:
    return {name: tests[name] for name in about if name in tests}


def _in_true_time(tests: Mapping[str, Sequence[Tested]]) -> list[Tested]:
    return sorted((each for of_one in tests.values() for each in of_one), key=tested_in_order)
