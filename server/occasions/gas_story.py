"""One gas line step by step: each cylinder change, each bead, each shift, and the bead that was due from then on."""

from collections.abc import Callable, Mapping, Sequence
from itertools import islice
from typing import NamedTuple

from server.facts.clock import Stamp
from server.facts.equipment import Acceptance
from server.occasions.days import Days
from server.occasions.tested import Tested
from server.occasions.timed import Timed


class Step(NamedTuple):
    """From `at_ms` on: the cylinder on the line, since when a bead is due and which one came, or what settled it."""

    at_ms: int
    change: Timed | None
    due_since: Stamp | None
    next_bead: Tested | None
    settled_by: Stamp | None


class _Happening(NamedTuple):
    at_ms: int
    rank: int
    at: Stamp
    change: Timed | None
    bead: Tested | None
    day: int


def steps_of(
    changes: Sequence[Timed],
    beads: Sequence[Tested],
    purge: bool,
    days: Days,
    accepted_at: Callable[[int], Mapping[str, Acceptance]],
) -> list[Step]:
    """Walk one line's story in the order of time."""
    happenings = _happenings(changes, beads, purge, days, accepted_at)
    name = "purge_bead_at_change" if purge else "torch_bead_at_change"
    steps: list[Step] = []
    change: Timed | None = None
    due: Stamp | None = None
    coming: Tested | None = None
    for number, each in enumerate(happenings):
        settled = None
        if each.bead is not None:
            settled, due, coming = each.at, None, None
        elif each.change is not None:
            change = each.change
            due = each.at if name in accepted_at(each.day) else None
            coming = _next_bead(happenings, number, None) if due else None
        else:
            due = each.at
            coming = _next_bead(happenings, number, each.day)
        steps.append(Step(each.at_ms, change, due, coming, settled))
    return steps


def _happenings(
    changes: Sequence[Timed],
    beads: Sequence[Tested],
    purge: bool,
    days: Days,
    accepted_at: Callable[[int], Mapping[str, Acceptance]],
) -> list[_Happening]:
    found = [_Happening(c.at.at_ms, 1, c.at, c, None, days.day_of(c.at.at_ms)) for c in changes]
    for bead in beads:
        day = days.day_of(bead.at.at_ms)
        found.append(_Happening(bead.at.at_ms, 2, bead.at, None, bead, day))
    if not purge:
        for day in {each.day for each in found if each.bead is not None}:
            if "torch_bead_every" in accepted_at(day):
                start = days.start_ms(day)
                found.append(_Happening(start, 0, Stamp(start, 0, "", None, 0), None, None, day))
    return sorted(found, key=_order)


def _next_bead(happenings: Sequence[_Happening], number: int, day: int | None) -> Tested | None:
    """The bead a change waits for comes before the next change; the one a shift waits for, on that day."""
    for each in islice(happenings, number + 1, None):
        if day is not None and each.day != day:
            return None
        if each.bead is not None:
            return each.bead
        if day is None and each.change is not None:
            return None
    return None


def _order(happening: _Happening) -> tuple[int, int]:
    return happening.at_ms, happening.rank
