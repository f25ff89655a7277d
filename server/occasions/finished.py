"""When a joint came how far: tacked, welded, finished in a quarter or all round, released."""

from server.facts.entry import QUARTERS
from server.occasions.frame_log import Attempt, FrameLog
from server.occasions.timed import Timed

# A root alone leaves the seam open to the next run; these runs close it.
_CLOSING = frozenset({"fill", "wash", "repair"})


def quarter_closed(attempt: Attempt, quarter: str) -> Timed | None:
    """Give the pass that first closed a quarter in this attempt."""
    return next(
        (each for each in attempt.passes if each.entry.run in _CLOSING and quarter in each.entry.quarters), None
    )


def all_closed(attempt: Attempt) -> Timed | None:
    """Give the pass that closed the last open quarter; a repair has only the quarters it names to close."""
    wanted = QUARTERS if not attempt.repair else attempt.passes[0].entry.quarters
    closed = [quarter_closed(attempt, quarter) for quarter in wanted]
    known = [each for each in closed if each is not None]
    return max(known, key=_at_ms) if len(known) == len(closed) else None


def reached(log: FrameLog, joint: str, verb: str, attempt: Attempt | None = None) -> Timed | None:
    """Give the entry with which a joint first got that far: tacked, welded, finished or released."""
    if attempt is not None:
        return _reached(attempt, verb)
    key = (joint, verb)
    if key not in log.reached_first:
        found = [each for one in log.joints.get(joint, ()) if (each := _reached(one, verb)) is not None]
        log.reached_first[key] = min(found, key=_at_ms, default=None)
    return log.reached_first[key]


def _reached(attempt: Attempt, verb: str) -> Timed | None:
    if verb == "finished":
        return all_closed(attempt)
    if verb == "released":
        return next(iter(attempt.of("release")), None)
    if verb == "tacked":
        return next(iter(attempt.tacks), None)
    return next(iter(attempt.passes), None) if verb == "welded" else attempt.begun()


def _at_ms(timed: Timed) -> int:
    return timed.at.at_ms
