"""Gathers what a frame's welds rest on that bears no serial: checks of its lines and meters, gas and sleeve changes."""

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

from server.evidence.chain_subject import ChainSubject
from server.facts.checking import Bead, Check, Coupon, Reading
from server.facts.supplies import CylinderChange, Sleeve
from server.facts.welding import Pass, Tack
from server.occasions.tables import Tables
from server.occasions.tested import Tested
from server.record.reads import Reads
from server.work.frame_history import FrameStory, Told, tell
from server.work.known_shop import shop_at

_OF_NO_FRAME = Bead | Check | Coupon | CylinderChange | Reading | Sleeve
_LINES = ("torch_line", "trailing_line", "purge_line")
_Moments = dict[ChainSubject, list[int]]


def told_beside(reads: Reads, story: FrameStory, changes: Iterable[str]) -> list[Told]:
    """Give in true order the last check before and the first after each pass, what was told of its sleeves, all that a
    finding rests on, and `changes`, which brought its gas; with what puts any of it right."""
    moments = _moments(story)
    sleeves = [each for each in moments if each.kind == "sleeve"]
    named = {*changes, *_rested_on(story), *_around_all(shop_at(reads, story.known_at).tables, moments)}
    every = [
        *reads.entries_named(named),
        *reads.entries_by(sleeves, story.known_at, ["sleeve"]),
        *reads.entries_by(moments, story.known_at, ["correction"]),
    ]
    wanted = {each.entry.id: each for each in every if each.position <= story.known_at}
    told = tell(reads, wanted.values(), story.known_at)
    return [each for each in told if _bears_no_serial(each)]


def _bears_no_serial(told: Told) -> bool:
    """What names a frame is told with that frame, and another's nowhere else."""
    return isinstance(told.entry, _OF_NO_FRAME) and not getattr(told.entry, "frame", None)


def _moments(story: FrameStory) -> _Moments:
    """When each line, instrument and sleeve was used [ms, UTC]."""
    found: _Moments = defaultdict(list)
    for told in (each for joint in story.joints for attempt in joint.attempts for each in attempt.told):
        if isinstance(told.entry, Pass | Tack):
            for thing in _used(told.entry):
                found[thing].append(told.stamp.at_ms)
    return found


def _used(entry: Pass | Tack) -> Iterator[ChainSubject]:
    lines = (getattr(entry, name, None) for name in _LINES)
    yield from {ChainSubject("gas line", each) for each in lines if each}
    values = getattr(entry, "values", {}).values()
    yield from {ChainSubject("instrument", each.by) for each in values if each.by}
    if entry.sleeve not in (None, "none"):
        yield ChainSubject("sleeve", str(entry.sleeve))


def _rested_on(story: FrameStory) -> set[str]:
    return {entry for each in story.matters for entry in each.finding.verdict.rests_on}


def _around_all(tables: Tables, moments: _Moments) -> Iterator[str]:
    for thing, at_ms in moments.items():
        by_kind: dict[str, list[Tested]] = defaultdict(list)
        for each in (*tables.gas.beads.get(thing.id, ()), *tables.checks_about(thing.id)):
            by_kind[getattr(each.entry, "check", "bead")].append(each)
        for tests in by_kind.values():
            yield from _around(sorted(tests, key=lambda each: each.at.at_ms), at_ms)


def _around(tests: Sequence[Tested], moments: Iterable[int]) -> Iterator[str]:
    """The test before each moment and the one after it, and the entry that told its result where that is another."""
    made = [each.at.at_ms for each in tests]
    after = {bisect_right(made, moment) for moment in moments}
    for at in sorted({*after, *(place - 1 for place in after)}):
        if 0 <= at < len(tests):
            yield from (tests[at].entry.id, tests[at].told_in)
