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


class _Seam(NamedTuple):
    """What all passes of one attempt at a joint share."""

    joint: Joint
    id: str
    procedure: str
    subject: str
    attempt: int
    repair: bool
    named: frozenset[str]
    cleans: list[Timed]


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
        if not attempt.passes:
            return ()
        subject = str(JointSubject(self._log.frame, joint.id, attempt.number))
        named = frozenset().union(*[each.entry.values for each in attempt.passes])
        cleans = attempt.of("clean")
        seam = _Seam(joint, joint.id, joint.procedure, subject, attempt.number, attempt.repair, named, cleans)
        return tuple([self._pass(each, seam, number == 0) for number, each in enumerate(attempt.passes)])

    def tacks(self, attempt: Attempt, joint: Joint) -> tuple[TackOccasion, ...]:
        """Give the sets of tacks of one attempt."""
        if not attempt.tacks:
            return ()
        subject = str(JointSubject(self._log.frame, joint.id, attempt.number))
        return tuple([self._tack(each, joint, subject, attempt) for each in attempt.tacks])

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

    def _pass(self, timed: Timed, seam: _Seam, first: bool) -> PassOccasion:
        tables, at = self._tables, timed.at
        joint, told = seam.joint, vars(timed.entry)
        entry, run, welder, sleeve, card = told["id"], told["run"], told["who"], told["sleeve"], told["card"]
        day = tables.days.day_of(at.at_ms)
        accept = tables.at(day)
        held = self.held(joint, day, seam.repair)
        procedure = held.procedure
        limits = tables.revisions.limits(procedure, held.kind, run)
        started_ms = arc_start_ms(timed)
        purge = tables.gas.at(told["purge_line"], at.at_ms)
        torch = tables.gas.at(told["torch_line"], at.at_ms)
        flushed = self._flushed.get(entry)
        figures, age, curve = self._figures(timed, joint, limits, accept, started_ms, flushed)
        cleaned = _last_before(seam.cleans, started_ms)
        uses = tables.uses
        own = seam.procedure
        names = (own,) if procedure is None or procedure.name == own else (own, procedure.name)
        return PassOccasion(
            subject=seam.subject,
            frame=self._log.frame,
            joint=joint,
            attempt=seam.attempt,
            entry=entry,
            run=run,
            quarters=told["quarters"],
            ended=at,
            started_ms=started_ms,
            tapped_ms=timed.tapped_ms,
            day=day,
            welder=welder,
            repair=seam.repair,
            procedure=procedure,
            limits=limits,
            in_force=held.in_force,
            shown=tables.revisions.shown(card),
            card=card,
            accept=accept,
            figures=figures,
            purge=purge,
            torch=torch,
            rod=self._rod(sleeve, at, day),
            no_filler=sleeve == NO_FILLER,
            standing=tables.standings.on(welder, joint, self._drawing.name, names, day),
            first_of_shift=uses.first_of_shift(told["torch_line"], day, at.at_ms, entry),
            first_after_change=uses.first_on_cylinder(purge, at.at_ms, entry)
            or uses.first_on_cylinder(torch, at.at_ms, entry),
            first_of_setup=flushed is not None,
            first_of_joint=first,
            elsewhere=seam.named,
            number=self._drawing.numbers.get(seam.id),
            setup=told["setup"],
            late_reason=told["late_reason"],
            unconfirmed=told["unconfirmed"],
            oxygen_age_min=age,
            clean_to_arc_h=(started_ms - cleaned.at.at_ms) / _MS_PER_H if cleaned else None,
            clean_entry=cleaned.entry.id if cleaned else None,
            curve=curve,
            tungsten_type=told["tungsten_type"],
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
        tables, told = self._tables, vars(timed.entry)
        figures = tables.doubts.figures(told["values"], told["id"], accept)
        if (trace := tables.trace_of(told["id"])) is not None:
            figures = with_trace(figures, trace.entry, tables.doubts, accept)
        age = None
        if "oxygen" not in figures:
            age = self._add_last_reading(figures, told["setup"], started_ms, accept)
        self._add_computed(figures, joint.seam_mm * len(told["quarters"]) / 4, limits, accept)
        if flushed is not None:
            figures |= {
                name: figure
                for name, figure in (("pre_purge", flushed.minutes), ("pre_purge_volumes", flushed.volumes))
                if figure is not None
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
        told, day = vars(timed.entry), self._tables.days.day_of(timed.at.at_ms)
        held = self.held(joint, day, attempt.repair)
        return TackOccasion(
            subject=subject,
            frame=self._log.frame,
            joint=joint,
            attempt=attempt.number,
            entry=told["id"],
            at=timed.at,
            colour=told["colour"],
            removed=told["removed"],
            purged=told["purge_line"] is not None or told["setup"] is not None,
            limits=self._tables.revisions.limits(held.procedure, held.kind, "tack"),
            accept=self._tables.at(day),
        )


def _last_before(timed: list[Timed], moment_ms: int) -> Timed | None:
    return next((each for each in reversed(timed) if each.at.at_ms <= moment_ms), None) if timed else None
