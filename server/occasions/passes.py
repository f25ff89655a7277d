"""Passes and tacks of one frame as occasions, every look-up made."""

from collections.abc import Mapping
from typing import NamedTuple

from server.facts.clock import Stamp
from server.facts.design import Joint
from server.facts.equipment import Acceptance
from server.facts.figure import Figure
from server.facts.limit import Limit
from server.facts.occasion_pass import PassOccasion, RodUsed, TackOccasion
from server.facts.procedure import Procedure
from server.facts.subject import JointSubject
from server.occasions.drawings import Drawing
from server.occasions.energy import heat_input_of, travel_of
from server.occasions.frame_log import Attempt, FrameLog
from server.occasions.purging import Flushed, arc_start_ms
from server.occasions.tables import Tables
from server.occasions.timed import Timed
from server.occasions.traced import with_trace

NO_FILLER = "none"
_MS_PER_MIN = 60_000.0
_MS_PER_H = 3_600_000.0


class Held(NamedTuple):
    """What a joint's work of one day is held against."""

    procedure: Procedure | None
    in_force: Procedure | None
    kind: str


class Passes:
    """Makes the pass and tack occasions of one frame."""

    def __init__(self, tables: Tables, drawing: Drawing, log: FrameLog, flushed: Mapping[str, Flushed]) -> None:
        self._tables = tables
        self._drawing = drawing
        self._log = log
        self._flushed = flushed
        self._held: dict[tuple[str, int, bool], Held] = {}

    def of(self, attempt: Attempt, joint: Joint) -> tuple[PassOccasion, ...]:
        """Give the passes of one attempt in true time."""
        subject = str(JointSubject(self._log.frame, joint.id, attempt.number))
        named = [frozenset(each.entry.values) for each in attempt.passes]
        everywhere = frozenset().union(*named) if named else frozenset()
        repair = attempt.repair
        return tuple(
            self._pass(each, joint, subject, attempt, repair, everywhere, number == 0)
            for number, each in enumerate(attempt.passes)
        )

    def tacks(self, attempt: Attempt, joint: Joint) -> tuple[TackOccasion, ...]:
        """Give the sets of tacks of one attempt."""
        subject = str(JointSubject(self._log.frame, joint.id, attempt.number))
        return tuple(self._tack(each, joint, subject, attempt) for each in attempt.tacks)

    def held(self, joint: Joint, day: int, repair: bool) -> Held:
        """Give the revision work of one day is held against: a repair by the repair procedure, whatever was shown."""
        key = (joint.procedure, day, repair)
        found = self._held.get(key)
        if found is None:
            found = self._held[key] = self._look_up(joint, day, repair)
        return found

    def _look_up(self, joint: Joint, day: int, repair: bool) -> Held:
        revisions = self._tables.revisions
        own = revisions.judged_by(joint.procedure, day)
        kind = own.joint_kind if own else ""
        if not repair:
            return Held(own, revisions.in_force(joint.procedure, day), kind)
        procedure = revisions.repair_for(joint, day)
        return Held(procedure, revisions.in_force(procedure.name, day) if procedure else None, kind)

    def _pass(
        self,
        timed: Timed,
        joint: Joint,
        subject: str,
        attempt: Attempt,
        repair: bool,
        everywhere: frozenset[str],
        first: bool,
    ) -> PassOccasion:
        tables, entry, at = self._tables, timed.entry, timed.at
        day = tables.days.day_of(at.at_ms)
        accept = tables.at(day)
        held = self.held(joint, day, repair)
        limits = tables.revisions.limits(held.procedure, held.kind, entry.run)
        started_ms = arc_start_ms(timed)
        purge = tables.gas.at(entry.purge_line, at.at_ms)
        torch = tables.gas.at(entry.torch_line, at.at_ms)
        flushed = self._flushed.get(entry.id)
        figures, age, curve = self._figures(timed, joint, limits, accept, started_ms, flushed)
        names = dict.fromkeys((joint.procedure, held.procedure.name if held.procedure else joint.procedure))
        cleaned = _last_before(attempt.of("clean"), started_ms)
        uses = tables.uses
        return PassOccasion(
            subject=subject,
            frame=self._log.frame,
            joint=joint,
            attempt=attempt.number,
            entry=entry.id,
            run=entry.run,
            quarters=entry.quarters,
            ended=at,
            started_ms=started_ms,
            tapped_ms=timed.tapped_ms,
            day=day,
            welder=entry.who,
            repair=repair,
            procedure=held.procedure,
            limits=limits,
            in_force=held.in_force,
            shown=tables.revisions.shown(entry.card),
            card=entry.card,
            accept=accept,
            figures=figures,
            purge=purge,
            torch=torch,
            rod=self._rod(entry.sleeve, at, day),
            no_filler=entry.sleeve == NO_FILLER,
            standing=tables.standings.on(entry.who, joint, self._drawing.name, tuple(names), day),
            first_of_shift=uses.first_of_shift(entry.torch_line, day, at.at_ms, entry.id),
            first_after_change=any(
                uses.first_after_change(gas.line, gas.change_entry, at.at_ms, entry.id) for gas in (purge, torch) if gas
            ),
            first_of_setup=flushed is not None,
            first_of_joint=first,
            elsewhere=everywhere,
            number=self._drawing.numbers.get(joint.id),
            setup=entry.setup,
            late_reason=entry.late_reason,
            unconfirmed=entry.unconfirmed,
            oxygen_age_min=age,
            clean_to_arc_h=(started_ms - cleaned.at.at_ms) / _MS_PER_H if cleaned else None,
            clean_entry=cleaned.entry.id if cleaned else None,
            curve=curve,
            tungsten_type=entry.tungsten_type,
        )

    def _figures(
        self,
        timed: Timed,
        joint: Joint,
        limits: Mapping[str, Limit],
        accept: Mapping[str, Acceptance],
        started_ms: int,
        flushed: Flushed | None,
    ) -> tuple[dict[str, Figure], float | None, str | None]:
        tables, entry = self._tables, timed.entry
        figures = tables.doubts.figures(entry.values, entry.id, accept)
        if (trace := tables.traces.get(entry.id)) is not None:
            figures = with_trace(figures, trace.entry, tables.doubts, accept)
        age = None
        if "oxygen" not in figures:
            age = self._add_last_reading(figures, entry.setup, started_ms, accept)
        self._add_computed(figures, joint.seam_mm * len(entry.quarters) / 4, limits, accept)
        if flushed is not None:
            figures |= {
                name: told
                for name, told in (("pre_purge", flushed.minutes), ("pre_purge_volumes", flushed.volumes))
                if told is not None
            }
        curve = None
        oxygen = figures.get("oxygen")
        if oxygen is not None and (failed := tables.curves.for_reading(oxygen.by, timed.at.at_ms)) is not None:
            figures["oxygen"], curve = tables.curves.corrected(oxygen, failed), failed.check
        return figures, age, curve

    @staticmethod
    def _add_computed(
        figures: dict[str, Figure], bead_mm: float, limits: Mapping[str, Limit], accept: Mapping[str, Acceptance]
    ) -> None:
        travel = travel_of(figures, bead_mm, accept)
        if travel is not None:
            figures["travel"] = travel
        limit = limits.get("heat_input")
        heat = heat_input_of(figures, bead_mm, (limit.k if limit else None) or 1.0, accept)
        if heat is not None:
            figures["heat_input"] = heat

    def _add_last_reading(
        self, figures: dict[str, Figure], setup: str | None, started_ms: int, accept: Mapping[str, Acceptance]
    ) -> float | None:
        """A reading taken apart from the pass, in the same set-up, stands for it; how old it was is kept."""
        readings = [each for each in self._log.of("reading") if each.entry.setup == setup and setup is not None]
        readings = [each for each in readings if "oxygen" in each.entry.values]
        last = _last_before(readings, started_ms)
        if last is None:
            return None
        measured = last.entry.values["oxygen"]
        figures["oxygen"] = self._tables.doubts.figure("oxygen", measured, last.entry.id, accept)
        return (started_ms - last.at.at_ms) / _MS_PER_MIN

    def _rod(self, sleeve: str | None, at: Stamp, day: int) -> RodUsed | None:
        if sleeve is None or sleeve == NO_FILLER:
            return None
        return self._tables.rods.used(sleeve, at, day)

    def _tack(self, timed: Timed, joint: Joint, subject: str, attempt: Attempt) -> TackOccasion:
        entry = timed.entry
        day = self._tables.days.day_of(timed.at.at_ms)
        held = self.held(joint, day, attempt.repair)
        return TackOccasion(
            subject=subject,
            frame=self._log.frame,
            joint=joint,
            attempt=attempt.number,
            entry=entry.id,
            at=timed.at,
            colour=entry.colour,
            removed=entry.removed,
            purged=entry.purge_line is not None or entry.setup is not None,
            limits=self._tables.revisions.limits(held.procedure, held.kind, "tack"),
            accept=self._tables.at(day),
        )


def _last_before(timed: list[Timed], moment_ms: int) -> Timed | None:
    return next((each for each in reversed(timed) if each.at.at_ms <= moment_ms), None)
