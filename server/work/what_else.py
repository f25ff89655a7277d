"""Finds what else shares something with a weld: every joint that used it, where its frame is now, and who has it."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from server.occasions.tables import Tables
from server.occasions.uses import Use
from server.record.reads import Reads
from server.work.claims_by_lot import ByLot, claims_by_lot
from server.work.frame_places import Place, place_of
from server.work.frame_things import FrameRow
from server.work.frame_told import FrameTold, frame_told
from server.work.known_shop import shop_now
from server.work.refusal import NotThere
from server.work.sought import Sought
from server.work.stretch import EVER, Stretch
from server.work.thing_index import ThingIndex, thing_index
from server.work.what_checks import NONE_IN_ORDER, Checks, Cut, InOrder, checks_of
from server.work.what_sets import Cuts, SetSize, set_sizes
from server.work.what_things import COUNTED, Thing
from server.work.who_has_it import Gone, gone


class Shared(NamedTuple):
    """One joint in one attempt that used the thing: its passes, where it is, and who has the frame since when."""

    subject: str
    frame: str
    passes: tuple[str, ...]
    at_ms: tuple[int, ...]
    place: Place
    customer: str
    shipped_ms: int | None


class Within(NamedTuple):
    """The stretch of time asked about [ms, UTC]; `check` is the failed check that ends it at a last good one."""

    since_ms: int | None = None
    until_ms: int | None = None
    check: str = ""

    @property
    def stretch(self) -> Stretch:
        """The stretch by itself."""
        since_ms = EVER.since_ms if self.since_ms is None else self.since_ms
        return Stretch(since_ms, EVER.until_ms if self.until_ms is None else self.until_ms)


_ALWAYS = Within()


@dataclass(frozen=True)
class WhatElse:
    """Everything that shares what was asked by, the checks beside it and the larger sets; joints when asked for."""

    asked: tuple[Thing, ...]
    sought: Sought
    checks: InOrder
    every: Checks
    ever: Sought
    cut: Cut | None
    sizes: tuple[SetSize, ...]
    by_lot: ByLot | None
    known_at: int

    @cached_property
    def shared(self) -> tuple[Shared, ...]:
        """Every joint, in the order of their first passes."""
        return tuple(joints_of(self.sought.tables, self.sought.uses, self.sought.index.seen.back))

    @cached_property
    def failed(self) -> int:
        """How many checks of it failed at any time."""
        return self.every.failed

    def cuts(self) -> Iterator[Cut]:
        """Give the cuts one may make, at a failed check with a pass since the last good one; the newest first."""
        return _newest_near(self.every, self.ever)

    def frames_at(self, place: Place) -> Sequence[FrameRow]:
        """Give the frames with a joint at one place, in the order of their last passes."""
        return self.sought.rows.get(place, ())

    def told_of(self, row: FrameRow) -> FrameTold:
        """Tell of one frame at one place."""
        return frame_told(self.sought.tables, row)

    @property
    def words(self) -> str:
        """Say what was asked by."""
        return " and ".join(each.words for each in self.asked)


def what_else(reads: Reads, asked: Sequence[Thing], within: Within = _ALWAYS) -> WhatElse:
    """Give what used every one of the things within a time; raises `NotThere` when nothing ever used them."""
    position = reads.last_position()
    tables = shop_now(reads).tables
    index = thing_index(tables)
    known = [each for each in asked if each in index.filed.uses]
    ever = Sought(tables, index, tuple(asked)) if len(known) == len(asked) else None
    if ever is None or not ever.rows:
        raise NotThere(_nothing(index, asked))
    every = checks_of(ever)
    cut = _cut(every, within.check)
    stretch = within.stretch.within(cut.stretch) if cut else within.stretch
    sought = ever if stretch == EVER else Sought(tables, index, tuple(asked), stretch)
    return WhatElse(
        asked=tuple(asked),
        sought=sought,
        checks=every.around(*sought.ends_ms, within.stretch) if sought.rows else NONE_IN_ORDER,
        every=every,
        ever=ever,
        cut=cut,
        sizes=tuple(set_sizes(sought, Cuts(cut, _cuts_near(every, ever)))),
        by_lot=_by_lot(tables, index, asked),
        known_at=position,
    )


def _by_lot(tables: Tables, index: ThingIndex, asked: Sequence[Thing]) -> ByLot | None:
    kind = asked[0].kind
    return claims_by_lot(tables, index, kind) if len(asked) == 1 and kind in COUNTED else None


def _nothing(index: ThingIndex, asked: Sequence[Thing]) -> str:
    if len(asked) > 1:
        return f"no pass used {' and '.join(each.words for each in asked)} together; ask by fewer of them"
    (thing,) = asked
    known = index.filed.names(thing.kind)
    return f"{thing.kind}: {thing.name!r} stands under no pass; known are {', '.join(known[-12:]) or 'none'}"


def _cut(checks: Checks, failed: str) -> Cut | None:
    if not failed:
        return None
    found = checks.cut_at(failed)
    if found is None:
        raise NotThere(f"check: {failed!r} is no failed check of what was asked by; take one that stands beside it")
    return found


def _reaches(cut: Cut, sought: Sought) -> bool:
    first_ms = sought.first_from(cut.stretch.since_ms)
    return first_ms is not None and first_ms < cut.until_ms


def _cuts_near(every: Checks, ever: Sought) -> list[Cut]:
    """The cuts that reach a cylinder, at which the lines it was on may be cut as well; of anything else none."""
    if [each.kind for each in ever.things] != ["cylinder"]:
        return []
    return list(_newest_near(every, ever))[::-1]


def _newest_near(every: Checks, ever: Sought) -> Iterator[Cut]:
    """The cuts that reach a pass, the newest first; of most one sees by the ends of the passes that they do not."""
    first_ms, last_ms = ever.ends_ms
    near = (each for each in every.newest_cuts() if first_ms < each.until_ms and each.stretch.since_ms <= last_ms)
    return (each for each in near if _reaches(each, ever))


def joints_of(tables: Tables, uses: Sequence[Use], back: Mapping[str, int]) -> Iterator[Shared]:
    """Tell of every joint in one attempt that these passes are of, in the order of their first passes."""
    by_subject: dict[tuple[str, str, int], list[Use]] = {}
    for use in uses:
        by_subject.setdefault((use.frame, use.joint, use.attempt), []).append(use)
    to: dict[str, Gone] = {}
    for (frame, _, _), of_joint in by_subject.items():
        if frame not in to:
            to[frame] = gone(tables.registers, frame)
        yield _shared(tables, of_joint, to[frame], home=frame in back)


def shared_of(tables: Tables, uses: Sequence[Use]) -> Shared:
    """Tell of one joint in one attempt, from its passes, where it is and who has its frame."""
    return _shared(tables, uses, gone(tables.registers, uses[0].frame), home=False)


def _shared(tables: Tables, uses: Sequence[Use], to: Gone, *, home: bool) -> Shared:
    first = uses[0]
    return Shared(
        subject=first.subject,
        frame=first.frame,
        passes=tuple(use.entry for use in uses),
        at_ms=tuple(use.at.at_ms for use in uses),
        place=place_of(tables, first, home=home),
        customer=to.customer,
        shipped_ms=to.shipped_ms,
    )
