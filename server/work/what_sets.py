"""What the smaller set costs against the larger ones: the frames each reaches, and the fact that leaves others out."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from server.facts.occasion_pass import GasOn
from server.work.sought import Sought
from server.work.stretch import EVER
from server.work.what_checks import Cut
from server.work.what_things import Thing


class SetSize(NamedTuple):
    """One set: in words, what asks for it, its joints and frames, how many of them are shipped.

    `more` is how many frames it takes beyond the set asked for, `fact` what lets the smaller set leave them out.
    Joints cut out and made anew are not counted.
    """

    words: str
    asked: tuple[Thing, ...]
    joints: int
    frames: int
    shipped: int
    more: int
    fact: str
    check: str = ""


class Cuts(NamedTuple):
    """The cut that is made, if one is, and those one may make."""

    made: Cut | None
    offered: Sequence[Cut]


class _Larger(NamedTuple):
    """One set: in words, what asks for it, and what lets the smaller set leave some of it out."""

    words: str
    sought: Sought
    fact: str
    check: str = ""
    whole: bool = False
    """Whether all of the set asked for is in it for certain."""


def set_sizes(sought: Sought, cuts: Cuts) -> list[SetSize]:
    """Give the size of the set asked for, then of every larger one somebody might take instead, smallest first."""
    words = " and ".join(each.words for each in sought.things) + (", cut" if cuts.made else "")
    mine = _size(_Larger(words, sought, ""), sought)
    others = (_size(each, sought) for each in _larger(sought, cuts))
    return [mine, *sorted((each for each in others if each.joints > mine.joints), key=lambda each: each.joints)]


def _size(larger: _Larger, own: Sought) -> SetSize:
    it = larger.sought
    joints, frames = it.count - it.joints_at("removed"), it.frames_count
    shared = own.frames_count if larger.whole or it is own else sum(map(it.has_standing, own.frames))
    shipped = len(it.rows.get("shipped", ()))
    return SetSize(larger.words, it.things, joints, frames, shipped, frames - shared, larger.fact, larger.check)


def _larger(sought: Sought, cuts: Cuts) -> Iterator[_Larger]:
    whole = sought.things
    if cuts.made:
        good, failed = cuts.made.good, cuts.made.failed
        since = f"the last good check is {good.entry}" if good else "no good check came before"
        words = " and ".join(each.words for each in whole)
        yield _Larger(words, replace(sought, stretch=EVER), f"{since}, the failed one {failed.entry}", whole=True)
    if len(whole) > 1:
        for thing in whole:
            others = " and ".join(each.words for each in whole if each != thing)
            yield _Larger(f"{thing.words} alone", _of(sought, thing), f"each pass names its {others}", whole=True)
    for thing in whole:
        if thing.kind == "sleeve":
            yield from _lot_of_sleeve(sought, thing)
        elif thing.kind == "cylinder":
            under = _under(sought, thing.name)
            yield from _around(sought, under)
            if len(whole) == 1:
                yield from _between_checks(sought, thing, under, cuts.offered)


_LOT_OF = "each pass was under one cylinder, by the changes logged at the line"
_SLEEVE_OF = "each fill names its sleeve"
_ON_LINE = "the cylinder on the line is known from change to change"
_Under = Sequence[tuple[str, GasOn]]


def _of(sought: Sought, thing: Thing) -> Sought:
    return replace(sought, things=(thing,), stretch=EVER)


def _lot_of_sleeve(sought: Sought, thing: Thing) -> Iterator[_Larger]:
    if thing.name in (sleeves := sought.tables.registers.sleeves):
        lot = Thing("filler lot", sleeves[thing.name].lot)
        yield _Larger(lot.words, _of(sought, lot), _SLEEVE_OF, whole=True)


def _around(sought: Sought, under: _Under) -> Iterator[_Larger]:
    """The larger things a cylinder belongs to: its lot, the line it was on."""
    for name in sorted({on.fill_lot for _, on in under if on.fill_lot}):
        lot = Thing("fill lot", name)
        yield _Larger(lot.words, _of(sought, lot), _LOT_OF)
    for line in _lines(under):
        yield _Larger(line.words, _of(sought, line), _ON_LINE)


def _between_checks(sought: Sought, thing: Thing, under: _Under, cuts: Sequence[Cut]) -> Iterator[_Larger]:
    """All that the line of the cylinder welded between its last good and its failed check."""
    changes = dict.fromkeys(on.change_entry for _, on in under if on.change_entry)
    came_on = f"{thing.words} came on by {', '.join(changes) or 'a change not logged'}"
    for line in _lines(under):
        for cut in (each for each in cuts if each.failed.about == line.name):
            found = replace(sought, things=(line,), stretch=cut.stretch)
            words = f"{line.words}, from its last good check to the failed one"
            yield _Larger(words, found, came_on, cut.failed.entry)


def _lines(under: _Under) -> Iterable[Thing]:
    return (Thing("line", name) for name in sorted({line for line, _ in under}))


def _under(sought: Sought, cylinder: str) -> _Under:
    gas = sought.tables.gas
    ons = [(line, gas.at(line, use.at.at_ms)) for use in sought.uses for line in use.lines]
    return [(line, on) for line, on in ons if on is not None and on.cylinder == cylinder]
