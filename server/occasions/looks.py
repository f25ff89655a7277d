"""Looks at a joint, and whether those the plan asks for are due yet."""

from server.facts.came_before import came_before
from server.facts.occasion_joint import LookFact
from server.occasions.drawings import Drawing
from server.occasions.frame_log import Attempt, FrameLog
from server.occasions.timed import Timed

# From here on nobody comes back to a seam with a torch of their own accord.
_PAST_WELDING = ("reamed", "aligned", "inspected", "finishing", "released", "shipped")


def looks_of(attempt: Attempt) -> tuple[LookFact, ...]:
    """Give the looks of one attempt in true time."""
    last = attempt.passes[-1] if attempt.passes else None
    return tuple(_fact(each, last) for each in attempt.of("look"))


def looks_due(log: FrameLog, attempt: Attempt, hidden: bool) -> bool:
    """Tell whether a look still missing is missed: the seam was released or hidden, or the frame has moved on."""
    if not attempt.passes:
        return False
    if hidden or attempt.of("release"):
        return True
    followed = log.joints[attempt.joint][-1].number > attempt.number
    if followed:
        return attempt.repair
    return log.reached(*_PAST_WELDING) is not None


def stage_looked(log: FrameLog, drawing: Drawing, stage: str) -> bool:
    """Tell whether some partly visible joint of this stage was looked at inside."""
    return any(
        each.entry.side == "inside" and each.entry.answer == "graded"
        for attempt in _partly_visible(log, drawing, stage)
        for each in attempt.of("look")
    )


def last_of_stage(log: FrameLog, drawing: Drawing, attempt: Attempt, stage: str) -> bool:
    """Tell whether this was the last partly visible joint of its stage to be welded, so the missing look is its."""
    welded = [each for each in _partly_visible(log, drawing, stage) if each.passes]
    return bool(welded) and max(welded, key=_last_pass) is attempt


def _partly_visible(log: FrameLog, drawing: Drawing, stage: str) -> list[Attempt]:
    return [
        attempt
        for joint in drawing.joints.values()
        if joint.stage == stage and joint.inside == "P"
        for attempt in log.joints.get(joint.id, ())
    ]


def _fact(timed: Timed, last_pass: Timed | None) -> LookFact:
    told = vars(timed.entry)
    return LookFact(
        entry=told["id"],
        at=timed.at,
        side=told["side"],
        zone=told["zone"],
        grade=told["grade"],
        answer=told["answer"],
        reason=told["reason"],
        as_welded=told["moment"] == "as welded",
        extent_mm=float(told["extent_mm"]) if told["extent_mm"] else None,
        after_last_pass=last_pass is None or came_before(timed.at, last_pass.at) is not True,
        quarters=told["quarters"],
        photo=told["photo"],
    )


def _last_pass(attempt: Attempt) -> int:
    return attempt.passes[-1].at.at_ms
