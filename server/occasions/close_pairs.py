"""Things whose order decides what an attempt rests on, and that lie closer than their clocks can tell."""

from collections.abc import Iterator

from server.facts.came_before import came_before
from server.facts.clock import Stamp
from server.facts.occasion_joint import ClosePair
from server.facts.occasion_pass import GasOn, PassOccasion
from server.occasions.frame_log import Attempt, FrameLog
from server.occasions.timed import Timed


def close_pairs(log: FrameLog, attempt: Attempt, passes: tuple[PassOccasion, ...]) -> tuple[ClosePair, ...] | None:
    """Give the pairs that are too close, none where no order is asked.

    Covers, releases, beads and what the drawing wants first have their own questions, and tell it there.
    """
    asked = False
    close: list[ClosePair] = []
    for words, first, others, second in _own(attempt):
        asked = True
        if _unclear(first.at, second.at):
            close.append(ClosePair(words, first.at, first.entry.id, others, second.at, second.entry.id))
    for pair in [*_readings(log, passes), *_changes(passes)]:
        asked = True
        if _unclear(pair.first_at, pair.second_at):
            close.append(pair)
    return tuple(close) if asked else None


def _unclear(one: Stamp, other: Stamp) -> bool:
    """One device orders its own entries, whatever its clock says: asked first, as nearly all pairs are of one."""
    if one.device == other.device and one.boot is not None and other.boot is not None:
        return False
    return came_before(one, other) is None


def _own(attempt: Attempt) -> Iterator[tuple[str, Timed, str, Timed]]:
    by_kind, passes, tacks = attempt.by_kind, attempt.passes, attempt.tacks
    arc = attempt.begun() if "clean" in by_kind or "gap" in by_kind else None
    if arc is not None:
        for each in attempt.of("clean"):
            yield "cleaning", each, "first arc", arc
        for each in attempt.of("gap"):
            yield "gap reading", each, "first arc", arc
    if passes:
        for each in tacks:
            yield "tack", each, "first pass", passes[0]
        for each in attempt.of("look"):
            yield "last pass", passes[-1], "look", each


def _readings(log: FrameLog, passes: tuple[PassOccasion, ...]) -> Iterator[ClosePair]:
    """A purge reading taken apart from the pass; one taken with it bears the pass's own time."""
    apart = [each for each in log.of("reading") if "oxygen" in each.entry.values and each.entry.setup is not None]
    for each in passes if apart else ():
        oxygen = each.figures.get("oxygen")
        if oxygen is not None and oxygen.entry == each.entry:
            continue
        struck = each.ended if each.started_ms is None else each.ended._replace(at_ms=each.started_ms)
        for reading in apart:
            if reading.entry.setup == each.setup:
                yield ClosePair("purge reading", reading.at, reading.entry.id, "arc", struck, each.entry)


def _changes(passes: tuple[PassOccasion, ...]) -> Iterator[ClosePair]:
    """Which cylinder a pass had hangs on the change before it and the one after it, where one lies near enough."""
    for each in passes:
        ended_ms, error_ms = each.ended.at_ms, each.ended.error_ms
        for gas in (each.torch, each.purge):
            if gas is None:
                continue
            before, after = gas.changed, gas.next_change
            if before is not None and abs(ended_ms - before.at_ms) <= before.error_ms + error_ms:
                yield _change(gas, before, gas.change_entry, each)
            if after is not None and abs(ended_ms - after.at_ms) <= after.error_ms + error_ms:
                yield _change(gas, after, gas.next_change_entry, each)


def _change(gas: GasOn, at: Stamp, entry: str | None, made: PassOccasion) -> ClosePair:
    return ClosePair(f"cylinder change on {gas.line}", at, entry or "", "pass", made.ended, made.entry)
