"""Which frames used several things under the same passes; kept for what was asked last, carried on by what changed."""

from collections.abc import Sequence
from functools import reduce
from operator import and_
from typing import NamedTuple

from server.facts.layered import differing
from server.occasions.tables import Tables
from server.occasions.uses import Use
from server.work.frame_things import OfFrame, only
from server.work.thing_filing import NOTHING_FILED, Filing, Frames, filed_again
from server.work.thing_index import ThingIndex
from server.work.what_things import Thing

Things = tuple[Thing, ...]
_NAME = "used together"
_KEPT = 32
"""So many questions are kept; one about the largest things takes some megabytes."""


class _Answer(NamedTuple):
    """What used some things together, filed under the first of them, and the frames it was read from."""

    read_from: Frames
    filed: Filing


class _Asked:
    """The questions asked last, each with its answer at this state or at an earlier one."""

    def __init__(self, before: "_Asked | None" = None) -> None:
        self.answers: dict[Things, _Answer] = dict(before.answers) if before else {}

    def keep(self, things: Things, answer: _Answer) -> None:
        """Keep an answer as the last one given; the one nobody asked for the longest goes."""
        self.answers.pop(things, None)
        self.answers[things] = answer
        for forgotten in list(self.answers)[:-_KEPT]:
            self.answers.pop(forgotten, None)


def used_together(tables: Tables, index: ThingIndex, things: Things) -> Filing:
    """Give what used all of some things, filed under the first of them."""
    asked: _Asked = tables.made_of.kept(_NAME, (index.filed.frames,), _Asked)
    known = asked.answers.get(things)
    if known is None or known.read_from is not index.filed.frames:
        known = _carried_on(known, index.filed, things)
    asked.keep(things, known)
    return known.filed


def _carried_on(known: _Answer | None, index: Filing, things: Things) -> _Answer:
    frames = index.frames

    def read(frame: str) -> OfFrame | None:
        return _of_all(frames[frame], index.passes[frame], things) if frame in frames else None

    if known is None:
        fewest = min(things, key=index.row_counts)
        every = dict.fromkeys(row.frame for _, rows in index.rows_of(fewest) for row in rows)
        return _Answer(frames, filed_again(NOTHING_FILED, index.passes, every, read)[0])
    changed = differing(known.read_from, frames)
    return _Answer(frames, filed_again(known.filed, index.passes, changed, read)[0])


def _of_all(of_frame: OfFrame, uses: Sequence[Use], things: Things) -> OfFrame | None:
    """What of a frame used every one of the things."""
    together = reduce(and_, (of_frame.used.get(each, 0) for each in things))
    if not together:
        return None
    rows = (row for row in of_frame.rows if row.key[0] == things[0] and row.passes & together)
    return of_frame._replace(
        used={things[0]: together}, rows=tuple(only(row, row.passes & together, of_frame, uses) for row in rows)
    )
