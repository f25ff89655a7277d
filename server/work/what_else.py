"""Finds what else shares something with a weld: every joint that used it, where its frame is now, and who has it."""

from collections.abc import Mapping, Sequence
from typing import Literal, NamedTuple, get_args

from server.occasions.tables import Tables
from server.occasions.uses import Use
from server.record.reads import Reads
from server.work.claims_by_lot import COUNTED, ByLot, claims_by_lot
from server.work.known_shop import shop_now
from server.work.refusal import NotThere
from server.work.what_checks import Beside, Cut, around, checks_of, cuts_of
from server.work.what_sets import Cuts, SetSize, counted, larger_sets
from server.work.what_things import Thing, known_names, uses_of_all
from server.work.who_has_it import back_in_house, last_shipment, who_has_it

Place = Literal["in work", "covered", "finished", "back in the house", "shipped", "removed"]
PLACES: tuple[Place, ...] = get_args(Place)


class Shared(NamedTuple):
    """One joint in one attempt that used the thing: its passes, where it is, and who has the frame since when."""

    subject: str
    frame: str
    passes: tuple[str, ...]
    at_ms: tuple[int, ...]
    place: Place
    customer: str
    shipped_ms: int | None


class WhatElse(NamedTuple):
    """Everything that shares what was asked by, in true time, with the checks beside it and the larger sets."""

    asked: tuple[Thing, ...]
    shared: tuple[Shared, ...]
    checks: tuple[Beside, ...]
    cuts: tuple[Cut, ...]
    cut: Cut | None
    sizes: tuple[SetSize, ...]
    by_lot: ByLot | None
    known_at: int

    def at(self, place: Place) -> list[Shared]:
        """Give the joints that are in one place."""
        return [each for each in self.shared if each.place == place]

    @property
    def words(self) -> str:
        """Say what was asked by."""
        return " and ".join(each.words for each in self.asked)


class Within(NamedTuple):
    """The stretch of time asked about [ms, UTC]; `check` is the failed check that ends it at a last good one."""

    since_ms: int | None = None
    until_ms: int | None = None
    check: str = ""


_ALWAYS = Within()


def what_else(reads: Reads, asked: Sequence[Thing], within: Within = _ALWAYS) -> WhatElse:
    """Give what used every one of the things within a time; raises `NotThere` when nothing ever used them."""
    position = reads.last_position()
    tables = shop_now(reads).tables
    mine = uses_of_all(tables, asked)
    if not mine:
        raise NotThere(_nothing(tables, asked))
    every = checks_of(tables, asked, mine)
    cut = _cut(every, within.check)
    uses = [use for use in mine if _inside(use.at.at_ms, within, cut)]
    offered = tuple(each for each in cuts_of(every) if _reaches(each, mine))
    sets = larger_sets(tables, asked, uses, Cuts(cut, offered))
    frames = {use.frame for each in sets for use in each.uses} & tables.shipped
    back = back_in_house(reads, tables.registers, frames)
    return WhatElse(
        asked=tuple(asked),
        shared=_all_shared(tables, uses, back),
        checks=tuple(each for each in around(every, uses) if _inside(each.at_ms, within, None)),
        cuts=offered,
        cut=cut,
        sizes=tuple(counted(tables, sets, lambda frame: frame in tables.shipped and frame not in back)),
        by_lot=_by_lot(tables, asked),
        known_at=position,
    )


def _by_lot(tables: Tables, asked: Sequence[Thing]) -> ByLot | None:
    kind = asked[0].kind
    if len(asked) > 1 or kind not in COUNTED:
        return None
    return claims_by_lot(tables, kind)


def _nothing(tables: Tables, asked: Sequence[Thing]) -> str:
    if len(asked) > 1:
        return f"no pass used {' and '.join(each.words for each in asked)} together; ask by fewer of them"
    (thing,) = asked
    known = known_names(tables, thing.kind)
    return f"{thing.kind}: {thing.name!r} stands under no pass; known are {', '.join(known[-12:]) or 'none'}"


def _cut(checks: Sequence[Beside], failed: str) -> Cut | None:
    if not failed:
        return None
    found = next((each for each in cuts_of(checks) if each.failed.entry == failed), None)
    if found is None:
        raise NotThere(f"check: {failed!r} is no failed check of what was asked by; take one that stands beside it")
    return found


def _reaches(cut: Cut, uses: Sequence[Use]) -> bool:
    return any(cut.holds(use.at.at_ms) for use in uses)


def _inside(at_ms: int, within: Within, cut: Cut | None) -> bool:
    after = within.since_ms is None or within.since_ms <= at_ms
    before = within.until_ms is None or at_ms < within.until_ms
    return after and before and (cut is None or cut.holds(at_ms))


def _all_shared(tables: Tables, uses: Sequence[Use], back: Mapping[str, int]) -> tuple[Shared, ...]:
    by_subject: dict[str, list[Use]] = {}
    for use in uses:
        by_subject.setdefault(use.subject, []).append(use)
    return tuple(shared_of(tables, of_joint, back) for of_joint in by_subject.values())


def shared_of(tables: Tables, uses: Sequence[Use], back: Mapping[str, int] | None = None) -> Shared:
    """Tell of one joint in one attempt, from its passes, where it is and who has its frame."""
    first, registers = uses[0], tables.registers
    shipment = last_shipment(registers, first.frame)
    home = first.frame in (back or {})
    return Shared(
        subject=first.subject,
        frame=first.frame,
        passes=tuple(use.entry for use in uses),
        at_ms=tuple(use.at.at_ms for use in uses),
        place=_place(tables, first, home=home),
        customer=who_has_it(registers, first.frame),
        shipped_ms=shipment.at if shipment else None,
    )


def _place(tables: Tables, use: Use, *, home: bool) -> Place:
    if tables.uses.made_again(use):
        return "removed"
    if use.frame in tables.shipped:
        return "back in the house" if home else "shipped"
    if any(each.permits in ("final inspection", "release") for each in tables.permissions_of.get(use.frame, ())):
        return "finished"
    drawing = tables.drawing_of(use.frame)
    hiding = {cover.by for cover in drawing.covers.get(use.joint, ())} if drawing else set()
    return "covered" if hiding & tables.uses.welded(use.frame) else "in work"
