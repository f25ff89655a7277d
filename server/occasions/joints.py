"""One attempt at one joint as an occasion."""

from collections.abc import Mapping

from server.facts.came_before import came_before
from server.facts.design import Joint
from server.facts.entry import QUARTERS
from server.facts.figure import Figure
from server.facts.occasion_joint import JointOccasion, PictureFact, ReleaseFact
from server.facts.occasion_pass import PassOccasion, TackOccasion
from server.facts.subject import JointSubject
from server.facts.welding import Pass, Tack
from server.occasions.close_pairs import close_pairs
from server.occasions.covers import covering_tacks, covers_of
from server.occasions.drawings import Drawing
from server.occasions.finished import all_closed
from server.occasions.frame_log import Attempt, FrameLog
from server.occasions.heats import heat_of
from server.occasions.holds import holds_of
from server.occasions.looks import last_of_stage, looks_due, looks_of, stage_looked
from server.occasions.needs import needs_of
from server.occasions.passes import Passes
from server.occasions.repairs import repair_of
from server.occasions.tables import Tables
from server.occasions.timed import Timed

PassesOf = Mapping[tuple[str, int], tuple[PassOccasion, ...]]


def joint_occasion(
    tables: Tables,
    drawing: Drawing,
    log: FrameLog,
    attempt: Attempt,
    made: Passes,
    passes_of: PassesOf,
    tacks: tuple[TackOccasion, ...],
) -> JointOccasion:
    """Give one attempt at one joint with everything known about it."""
    joint = drawing.joints[attempt.joint]
    passes = passes_of.get((attempt.joint, attempt.number), ())
    day = passes[-1].day if passes else _day(tables, attempt)
    held = made.held(joint, day, attempt.repair)
    looks = looks_of(attempt)
    hidden_by = covering_tacks(log, drawing, attempt)
    fused = _most_fused(attempt)
    colours = tables.revisions.colours(held.procedure, held.kind)
    by_stage = joint.inside == "P" and any(each.plan.when == "one per stage" for each in colours)
    return JointOccasion(
        subject=str(JointSubject(log.frame, joint.id, attempt.number)),
        frame=log.frame,
        joint=joint,
        attempt=attempt.number,
        day=day,
        procedure=held.procedure,
        limits=tables.revisions.limits(held.procedure, held.kind, None),
        colours=colours,
        accept=tables.at(day),
        passes=passes,
        tacks=tacks,
        looks=looks,
        looks_due=looks_due(log, attempt, bool(hidden_by)),
        stage_looked=by_stage and stage_looked(log, drawing, joint.stage),
        last_of_stage=by_stage and last_of_stage(log, drawing, attempt, joint.stage),
        gap=_gap(tables, attempt, day),
        gap_due=bool(attempt.tacks) and not attempt.repair,
        fusions=len(fused),
        fusion_entries=fused,
        welders=frozenset(each.entry.who for each in (*attempt.passes, *attempt.tacks)),
        repair=repair_of(log, attempt, tables.registers),
        covers=covers_of(log, drawing, attempt),
        releases=_releases(attempt),
        needs=needs_of(log, drawing, attempt),
        close=close_pairs(log, attempt, passes),
        holds=holds_of(tables, passes, hidden_by) if passes else (),
        pictures=_pictures(tables, log, joint, attempt),
        heat=heat_of(log, attempt, passes_of),
        strikes=_strikes(log, attempt),
        metals=drawing.metals[joint.id],
        hidden_later=drawing.hidden_later(joint.id),
        removed=bool(attempt.of("removed")) or _followed(log, attempt),
    )


def _day(tables: Tables, attempt: Attempt) -> int:
    moments = [each.at.at_ms for told in attempt.by_kind.values() for each in told]
    return tables.days.day_of(max(moments)) if moments else 1


def _gap(tables: Tables, attempt: Attempt, day: int) -> Figure | None:
    told = attempt.of("gap")
    if not told:
        return None
    last = told[-1].entry
    return tables.doubts.figure("gap", last.values["gap"], last.id, tables.at(day)) if "gap" in last.values else None


def _most_fused(attempt: Attempt) -> tuple[str, ...]:
    """The entries that fused the place fused most often; a root takes up the tack it runs over."""
    passes = [each.entry for each in attempt.passes]
    tacks = [each.entry for each in attempt.tacks if not each.entry.removed] if not attempt.repair else []
    if all(len(entry.quarters) == len(QUARTERS) for entry in (*passes, *tacks)):
        return _fusing(passes, tacks)
    return max((_fusing_in(quarter, passes, tacks) for quarter in QUARTERS), key=len)


def _fusing_in(quarter: str, passes: list[Pass], tacks: list[Tack]) -> tuple[str, ...]:
    over = [entry for entry in passes if quarter in entry.quarters]
    return _fusing(over, [entry for entry in tacks if quarter in entry.quarters])


def _fusing(passes: list[Pass], tacks: list[Tack]) -> tuple[str, ...]:
    if tacks and passes and not any(entry.run == "root" for entry in passes):
        return (tacks[0].id, *(entry.id for entry in passes))
    return tuple([entry.id for entry in passes])


def _releases(attempt: Attempt) -> tuple[ReleaseFact, ...]:
    told = attempt.of("release")
    closed = all_closed(attempt) if told else None
    return tuple(
        ReleaseFact(
            entry=each.entry.id,
            at=each.at,
            by=each.entry.who,
            finished=came_before(closed.at, each.at) if closed else False,
        )
        for each in told
    )


def _pictures(tables: Tables, log: FrameLog, joint: Joint, attempt: Attempt) -> tuple[PictureFact, ...]:
    own = log.about("photo", joint.id)
    only_one = len(log.joints[joint.id]) == 1
    return tuple(
        tables.pictures.fact(each)
        for each in own
        if only_one or _attempt_of(log, joint.id, each) == attempt.number
    )


def _attempt_of(log: FrameLog, joint: str, photo: Timed) -> int:
    said: int | None = photo.entry.attempt
    return _attempt_at(log, joint, photo.at.at_ms) if said is None else said


def _attempt_at(log: FrameLog, joint: str, at_ms: int) -> int:
    begun = [
        each.number
        for each in log.joints.get(joint, ())
        if (first := each.begun()) is not None and first.at.at_ms <= at_ms
    ]
    return max(begun, default=1)


def _strikes(log: FrameLog, attempt: Attempt) -> tuple[str, ...]:
    told = [each for each in log.about("problem", attempt.joint) if each.entry.what == "arc strike"]
    return tuple(e.entry.id for e in told if _attempt_at(log, attempt.joint, e.at.at_ms) == attempt.number)


def _followed(log: FrameLog, attempt: Attempt) -> bool:
    later = [each for each in log.joints[attempt.joint] if each.number > attempt.number]
    return any(not each.repair for each in later)
