"""What the smaller set costs against the larger ones: the frames each reaches, and the fact that leaves others out."""

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from server.facts.occasion_pass import GasOn
from server.occasions.tables import Tables
from server.occasions.uses import Use
from server.work.what_checks import Cut
from server.work.what_things import Thing, uses_of_all


class SetSize(NamedTuple):
    """One set: in words, what asks for it, its joints and frames, how many of them are shipped.

    `more` is how many frames it takes beyond the set asked for, `fact` what lets the smaller set leave them out.
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


class UsedSet(NamedTuple):
    """One set: in words, what asks for it, its passes, and what lets the smaller set leave some of them out."""

    words: str
    asked: tuple[Thing, ...]
    uses: Sequence[Use]
    fact: str
    check: str = ""


def larger_sets(tables: Tables, asked: Sequence[Thing], uses: Sequence[Use], cuts: Cuts) -> list[UsedSet]:
    """Give the set asked for first, then every other somebody might take instead."""
    words = " and ".join(each.words for each in asked) + (", cut" if cuts.made else "")
    return [UsedSet(words, tuple(asked), uses, ""), *_larger(tables, asked, uses, cuts)]


def counted(tables: Tables, sets: Sequence[UsedSet], has_left: Callable[[str], bool]) -> list[SetSize]:
    """Give the size of the first set, then of every larger one, smallest first."""
    own = _frames(tables, sets[0].uses)

    def size(larger: UsedSet) -> SetSize:
        frames = _frames(tables, larger.uses)
        joints = {use.subject for use in larger.uses if not tables.uses.made_again(use)}
        left = sum(has_left(each) for each in frames)
        counts = (len(joints), len(frames), left, len(frames - own))
        return SetSize(larger.words, larger.asked, *counts, larger.fact, larger.check)

    mine, *others = map(size, sets)
    return [mine, *sorted((each for each in others if each.joints > mine.joints), key=lambda each: each.joints)]


def _larger(tables: Tables, asked: Sequence[Thing], uses: Sequence[Use], cuts: Cuts) -> Iterator[UsedSet]:
    whole = tuple(asked)
    if cuts.made:
        good, failed = cuts.made.good, cuts.made.failed
        since = f"the last good check is {good.entry}" if good else "no good check came before"
        words = " and ".join(each.words for each in whole)
        yield UsedSet(words, whole, uses_of_all(tables, whole), f"{since}, the failed one {failed.entry}")
    if len(whole) > 1:
        for thing in whole:
            others = " and ".join(each.words for each in whole if each != thing)
            alone = uses_of_all(tables, [thing])
            yield UsedSet(f"{thing.words} alone", (thing,), alone, f"each pass names its {others}")
    for thing in whole:
        yield from _around(tables, thing, uses)
        if thing.kind == "cylinder" and len(whole) == 1:
            yield from _between_checks(tables, thing, uses, cuts.offered)


_LOT_OF = "each pass was under one cylinder, by the changes logged at the line"
_SLEEVE_OF = "each fill names its sleeve"
_ON_LINE = "the cylinder on the line is known from change to change"


def _around(tables: Tables, thing: Thing, uses: Sequence[Use]) -> Iterator[UsedSet]:
    """The larger things a thing belongs to: the lot of a cylinder or a sleeve, the line a cylinder was on."""
    if thing.kind == "sleeve" and thing.name in tables.registers.sleeves:
        lot = Thing("filler lot", tables.registers.sleeves[thing.name].lot)
        yield UsedSet(lot.words, (lot,), uses_of_all(tables, [lot]), _SLEEVE_OF)
    if thing.kind != "cylinder":
        return
    lots = {on.fill_lot for _, on in _under(tables, thing.name, uses) if on.fill_lot}
    for lot in (Thing("fill lot", name) for name in sorted(lots)):
        yield UsedSet(lot.words, (lot,), uses_of_all(tables, [lot]), _LOT_OF)
    for line in (Thing("line", name) for name in sorted({line for line, _ in _under(tables, thing.name, uses)})):
        yield UsedSet(line.words, (line,), uses_of_all(tables, [line]), _ON_LINE)


def _between_checks(tables: Tables, thing: Thing, uses: Sequence[Use], cuts: Sequence[Cut]) -> Iterator[UsedSet]:
    """All that the line of the cylinder welded between its last good and its failed check."""
    changes = dict.fromkeys(on.change_entry for _, on in _under(tables, thing.name, uses) if on.change_entry)
    came_on = f"{thing.words} came on by {', '.join(changes) or 'a change not logged'}"
    for line in (Thing("line", name) for name in sorted({line for line, _ in _under(tables, thing.name, uses)})):
        for cut in (each for each in cuts if each.failed.about == line.name):
            found = [use for use in uses_of_all(tables, [line]) if cut.holds(use.at.at_ms)]
            words = f"{line.words}, from its last good check to the failed one"
            yield UsedSet(words, (line,), found, came_on, cut.failed.entry)


def _under(tables: Tables, cylinder: str, uses: Sequence[Use]) -> list[tuple[str, GasOn]]:
    ons = [(line, tables.gas.at(line, use.at.at_ms)) for use in uses for line in use.lines]
    return [(line, on) for line, on in ons if on is not None and on.cylinder == cylinder]


def _frames(tables: Tables, uses: Sequence[Use]) -> set[str]:
    return {use.frame for use in uses if not tables.uses.made_again(use)}
