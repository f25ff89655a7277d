"""What hid a seam and when, against when it was finished, looked at and released."""

from collections.abc import Iterable, Iterator

from server.facts.came_before import came_before
from server.facts.clock import Stamp
from server.facts.design import Cover
from server.facts.occasion_joint import CoverFact
from server.occasions.drawings import Drawing
from server.occasions.finished import quarter_closed
from server.occasions.frame_log import Attempt, FrameLog
from server.occasions.timed import Timed


def covers_of(log: FrameLog, drawing: Drawing, attempt: Attempt) -> tuple[CoverFact, ...]:
    """Give every quarter of this attempt that was hidden, with the tack that hid it."""
    covers = drawing.covers.get(attempt.joint, ())
    return tuple(fact for cover in covers for fact in _facts(log, cover, attempt))


def covering_tacks(log: FrameLog, drawing: Drawing, attempt: Attempt) -> list[Timed]:
    """Give the tacks that hid this attempt, earliest first."""
    tacks = [
        tack
        for cover in drawing.covers.get(attempt.joint, ())
        for tack in _first_tacks(log, cover.by)
        if _hidden_attempt(log, attempt.joint, tack) == attempt.number
    ]
    return sorted(tacks, key=_at_ms)


def covered_but_never_begun(log: FrameLog, drawing: Drawing) -> Iterator[str]:
    """Give the seams another tube was tacked over although nothing was ever logged on them."""
    for seam, covers in drawing.covers.items():
        if seam not in log.joints and any(_first_tacks(log, cover.by) for cover in covers):
            yield seam


def _facts(log: FrameLog, cover: Cover, attempt: Attempt) -> Iterator[CoverFact]:
    for tack in _first_tacks(log, cover.by):
        if _hidden_attempt(log, cover.seam, tack) != attempt.number:
            continue
        closed = quarter_closed(attempt, cover.quarter)
        releases = [each for each in attempt.of("release") if cover.quarter in each.entry.quarters]
        released = _any_before(releases, tack.at)
        finished = came_before(closed.at, tack.at) if closed else False
        yield CoverFact(
            quarter=cover.quarter,
            by=cover.by,
            tack=tack.at,
            tack_entry=tack.entry.id,
            finished=finished,
            finished_entry=closed.entry.id if closed else None,
            released=released,
            released_entry=releases[0].entry.id if releases else None,
            evidence_before=bool(finished) and _all_evidence_before(attempt, tack.at),
        )


def _first_tacks(log: FrameLog, joint: str) -> list[Timed]:
    return [begun for attempt in log.joints.get(joint, []) if (begun := attempt.begun()) is not None]


def _hidden_attempt(log: FrameLog, seam: str, tack: Timed) -> int:
    begun = [
        attempt.number
        for attempt in log.joints.get(seam, [])
        if (first := attempt.begun()) is not None and came_before(tack.at, first.at) is not True
    ]
    return max(begun, default=1)


def _all_evidence_before(attempt: Attempt, tack: Stamp) -> bool:
    looks, passes = attempt.of("look"), attempt.passes
    return any(came_before(each.at, tack) for each in looks) and all(came_before(each.at, tack) for each in passes)


def _any_before(entries: Iterable[Timed], tack: Stamp) -> bool | None:
    answers = [came_before(each.at, tack) for each in entries]
    if True in answers:
        return True
    return None if None in answers else False


def _at_ms(timed: Timed) -> int:
    return timed.at.at_ms
