"""Which frames used several things under the same passes, within a time; kept for what was asked last, carried on."""

from collections.abc import Iterable, Iterator, Sequence
from functools import reduce
from operator import and_
from typing import NamedTuple

from server.facts.in_parts import first_at, in_parts
from server.facts.layered import differing
from server.occasions.tables import Tables
from server.occasions.uses import Use
from server.work.frame_things import FrameRow, OfFrame, of_bits, only
from server.work.stretch import EVER, Stretch
from server.work.thing_filing import Filing, Frames, filed_again, filed_of
from server.work.thing_index import ThingIndex
from server.work.what_things import Thing

Things = tuple[Thing, ...]
_NAME = "used together"
_KEPT = 32
"""So many questions are kept; one about the largest things takes some megabytes."""


class _Question(NamedTuple):
    """Some things and a stretch of time."""

    things: Things
    stretch: Stretch


class _Answer(NamedTuple):
    """What used some things together, filed under the first of them, and the frames it was read from."""

    read_from: Frames
    filed: Filing


class _Asked:
    """The questions asked last, each with its answer at this state or at an earlier one."""

    def __init__(self, before: "_Asked | None" = None) -> None:
        self.answers: dict[_Question, _Answer] = dict(before.answers) if before else {}

    def keep(self, question: _Question, answer: _Answer) -> None:
        """Keep an answer as the last one given; the one nobody asked for the longest goes."""
        self.answers.pop(question, None)
        self.answers[question] = answer
        for forgotten in list(self.answers)[:-_KEPT]:
            self.answers.pop(forgotten, None)


def used_together(tables: Tables, index: ThingIndex, things: Things, stretch: Stretch = EVER) -> Filing:
    """Give what used all of some things within a time, filed under the first of them."""
    asked: _Asked = tables.made_of.kept(_NAME, (index.filed.frames,), _Asked)
    question = _Question(things, stretch)
    known = asked.answers.get(question)
    if known is None:
        known = _Answer(index.filed.frames, _anew(index.filed, question))
    elif known.read_from is not index.filed.frames:
        known = _carried_on(known, index.filed, question)
    asked.keep(question, known)
    return known.filed


def _carried_on(known: _Answer, index: Filing, asked: _Question) -> _Answer:
    frames = index.frames

    def read(frame: str) -> OfFrame | None:
        return _of_all(frames[frame], index.passes[frame], asked) if frame in frames else None

    changed = differing(known.read_from, frames)
    return _Answer(frames, filed_again(known.filed, index.passes, changed, read)[0])


def _of_all(of_frame: OfFrame, uses: Sequence[Use], asked: _Question) -> OfFrame | None:
    """What of a frame used every one of the things."""
    first, together = asked.things[0], _passes(of_frame, asked.things)
    if not together or not (together := together & asked.stretch.bits_of(uses)):
        return None
    rows = (row for row in of_frame.rows if row.key[0] == first and row.passes & together)
    told = tuple(only(row, row.passes & together, of_frame, uses) for row in rows)
    return of_frame._replace(used={first: together}, rows=told)


def _passes(of_frame: OfFrame, things: Things) -> int:
    return reduce(and_, (of_frame.used.get(each, 0) for each in things))


def _anew(index: Filing, asked: _Question) -> Filing:
    """File it from the rows and the passes of the thing that has the fewest, which stand in order."""
    fewest = min(asked.things, key=index.row_counts)
    others = tuple(each for each in asked.things if each != fewest)
    frames = _frames(index, asked.things[0], _rows(index, fewest, others, asked))
    uses = asked.stretch.of(index.uses.get(fewest, ()))
    if others:
        left_out = _left_out(index, fewest, frames, asked)
        uses = [use for use in uses if use.frame in frames and use.entry not in left_out]
    return filed_of(index.passes, frames, {asked.things[0]: in_parts(list(uses))} if uses else {})


def _rows(index: Filing, fewest: Thing, others: Things, asked: _Question) -> Iterator[FrameRow]:
    since_ms, until_ms = asked.stretch
    for place, rows in index.rows_of(fewest):
        key = asked.things[0], place
        for row in rows[first_at(rows, since_ms, _last_ms) :]:
            of_frame, passes = index.frames[row.frame], row.passes
            for each in others:
                passes &= of_frame.used.get(each, 0)
            if row.first_ms < since_ms or row.last_ms >= until_ms:
                passes &= asked.stretch.bits_of(index.passes[row.frame]) if row.first_ms < until_ms else 0
            if passes:
                found = only(row, passes, of_frame, index.passes[row.frame])
                yield FrameRow(key, *found[1:]) if others else found


def _frames(index: Filing, first: Thing, rows: Iterable[FrameRow]) -> dict[str, OfFrame]:
    """The rows by frame, which has more than one while its joints are at more than one place."""
    found: dict[str, OfFrame] = {}
    for row in rows:
        known = found.get(row.frame)
        if known is None:
            found[row.frame] = OfFrame(index.frames[row.frame].joints, {first: row.passes}, (row,))
        else:
            found[row.frame] = OfFrame(known.joints, {first: known.used[first] | row.passes}, (*known.rows, row))
    return found


def _left_out(index: Filing, fewest: Thing, frames: Frames, asked: _Question) -> set[str]:
    """The passes of these frames that used the thing that has the fewest, but not the others."""
    first, found = asked.things[0], set()
    for frame, told in frames.items():
        if left := index.frames[frame].used[fewest] & ~told.used[first]:
            found.update([use.entry for use in of_bits(index.passes[frame], left)])
    return found


def _last_ms(row: FrameRow) -> int:
    return row.last_ms
