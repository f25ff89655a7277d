"""What the design wants before a step, held against what came first in true time."""

from collections.abc import Iterator

from server.facts.came_before import came_before
from server.facts.occasion_joint import NeedFact
from server.occasions.drawings import Drawing, Wanted
from server.occasions.finished import reached
from server.occasions.frame_log import Attempt, FrameLog
from server.occasions.timed import Timed


def needs_of(log: FrameLog, drawing: Drawing, attempt: Attempt) -> tuple[NeedFact, ...]:
    """Give each thing a step of this attempt needed, for the steps that were taken."""
    needs = drawing.needs.get(attempt.joint)
    return tuple([fact for need in needs for fact in _facts(log, need, attempt)]) if needs else ()


def _facts(log: FrameLog, need: Wanted, attempt: Attempt) -> Iterator[NeedFact]:
    step = reached(log, attempt.joint, need.verb, attempt)
    if step is None:
        return
    for wanted, joint, verb, geometry in need.first:
        first = _good_check(log, wanted) if geometry else reached(log, joint, verb)
        yield NeedFact(
            step=need.step,
            first=wanted,
            geometry=geometry,
            step_at=step.at,
            step_entry=step.entry.id,
            first_at=first.at if first else None,
            first_entry=first.entry.id if first else None,
            before=came_before(first.at, step.at) if first else False,
            reason=need.reason,
        )


def _good_check(log: FrameLog, check: str) -> Timed | None:
    made = (each for each in log.of("geometry") if each.entry.check == check)
    return next((each for each in made if each.entry.result == "good"), None)
