"""What the smaller set costs against the larger ones: the frames each reaches, and the fact that leaves others out."""

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from server.occasions.tables import Tables
from server.occasions.uses import Use
from server.work.what_checks import Cut
from server.work.what_things import Thing, reader, uses_of_all


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


def set_sizes(
    tables: Tables, asked: Sequence[Thing], uses: Sequence[Use], cut: Cut | None, has_left: Callable[[str], bool]
) -> list[SetSize]:
    """Give the set asked for first, then every larger one somebody might take instead, smallest first."""
    own = _frames(tables, uses)

    def size(words: str, things: Sequence[Thing], found: Sequence[Use], fact: str) -> SetSize:
        frames = _frames(tables, found)
        joints = {use.subject for use in found if not tables.uses.made_again(use)}
        left = sum(has_left(each) for each in frames)
        return SetSize(words, tuple(things), len(joints), len(frames), left, len(frames - own), fact)

    words = " and ".join(each.words for each in asked)
    mine = size(f"{words}, cut" if cut else words, asked, uses, "")
    larger = [size(*each) for each in _larger(tables, asked, uses, cut)]
    return [mine, *sorted((each for each in larger if each.joints > mine.joints), key=lambda each: each.joints)]


_Larger = tuple[str, tuple[Thing, ...], Sequence[Use], str]


def _larger(tables: Tables, asked: Sequence[Thing], uses: Sequence[Use], cut: Cut | None) -> Iterator[_Larger]:
    whole = tuple(asked)
    if cut:
        since = f"the last good check is {cut.good.entry}" if cut.good else "no good check came before"
        fact = f"{since}, the failed one {cut.failed.entry}"
        yield " and ".join(each.words for each in whole), whole, uses_of_all(tables, whole), fact
    if len(whole) > 1:
        for thing in whole:
            others = " and ".join(each.words for each in whole if each != thing)
            yield f"{thing.words} alone", (thing,), uses_of_all(tables, [thing]), f"each pass names its {others}"
    for thing in whole:
        yield from _around(tables, thing, uses)


_PARENT = {"cylinder": ("fill lot", "line"), "sleeve": ("filler lot",)}
_FACT = {
    "fill lot": "each pass was under one cylinder, by the changes logged at the line",
    "line": "the cylinder on the line is known from change to change",
    "filler lot": "each fill names its sleeve",
}


def _around(tables: Tables, thing: Thing, uses: Sequence[Use]) -> Iterator[_Larger]:
    """The larger things a thing belongs to: the lot of a cylinder or a sleeve, the line a cylinder was on."""
    read_own = reader(tables, thing.kind)
    under = [use for use in uses if thing.name in read_own(use)]
    for kind in _PARENT.get(thing.kind, ()):
        read = reader(tables, kind)  # type: ignore[arg-type]
        for name in sorted({each for use in under for each in read(use)} - {thing.name}):
            parent = Thing(kind, name)  # type: ignore[arg-type]
            if kind != "line" or _was_on(tables, thing.name, name, under):
                yield parent.words, (parent,), uses_of_all(tables, [parent]), _FACT[kind]


def _was_on(tables: Tables, cylinder: str, line: str, uses: Sequence[Use]) -> bool:
    ons = (tables.gas.at(line, use.at.at_ms) for use in uses if line in use.lines)
    return any(on is not None and on.cylinder == cylinder for on in ons)


def _frames(tables: Tables, uses: Sequence[Use]) -> set[str]:
    return {use.frame for use in uses if not tables.uses.made_again(use)}
