"""Finds what else shares something with a weld: every joint that used it, where its frame is now, and who has it."""

from collections.abc import Callable, Iterable, Sequence
from datetime import date
from typing import Literal, NamedTuple, get_args

from server.facts.orders import Shipment
from server.occasions.build import Shop
from server.occasions.tables import Tables
from server.occasions.uses import Use
from server.record.reads import Reads
from server.work.known_shop import known_shop
from server.work.refusal import NotThere
from server.work.who_has_it import last_shipment, who_has_it

Kind = Literal[
    "cylinder", "fill lot", "sleeve", "filler lot", "tube heat", "welder", "line", "instrument", "revision", "week"
]
KINDS: tuple[Kind, ...] = get_args(Kind)
Place = Literal["in work", "covered", "finished", "shipped", "removed"]
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


class Beside(NamedTuple):
    """A check of the same thing beside the passes: when, what, and how it came out."""

    at_ms: int
    words: str
    good: bool
    entry: str


class WhatElse(NamedTuple):
    """Everything that shares one thing, in true time, with the checks of it."""

    kind: Kind
    thing: str
    shared: tuple[Shared, ...]
    checks: tuple[Beside, ...]
    known_at: int

    def at(self, place: Place) -> list[Shared]:
        """Give the joints that are in one place."""
        return [each for each in self.shared if each.place == place]


def what_else(
    reads: Reads, kind: Kind, thing: str, since_ms: int | None = None, until_ms: int | None = None
) -> WhatElse:
    """Give what used the thing, between two moments where they are given; raises `NotThere` when nothing ever did."""
    position = reads.last_position()
    tables = Shop(known_shop(reads, position)).tables
    uses = tables.uses.all
    mine = [use for use in uses if thing in _things(tables, kind)(use)]
    if not mine:
        known = sorted({each for use in uses for each in _things(tables, kind)(use)})
        raise NotThere(f"{kind}: {thing!r} stands under no pass; known are {', '.join(known[-12:]) or 'none'}")
    cut = [use for use in mine if _inside(use.at.at_ms, since_ms, until_ms)]
    by_subject: dict[str, list[Use]] = {}
    for use in cut:
        by_subject.setdefault(use.subject, []).append(use)
    shared = tuple(shared_of(tables, uses_of) for uses_of in by_subject.values())
    checks = tuple(each for each in _checks(tables, kind, thing, cut) if _inside(each.at_ms, since_ms, until_ms))
    return WhatElse(kind, thing, shared, checks, position)


def _inside(at_ms: int, since_ms: int | None, until_ms: int | None) -> bool:
    return (since_ms is None or since_ms <= at_ms) and (until_ms is None or at_ms < until_ms)


def _things(tables: Tables, kind: Kind) -> Callable[[Use], Iterable[str]]:
    """How to read from a pass the things of one kind that it used."""
    registers = tables.registers
    readers: dict[Kind, Callable[[Use], Iterable[str | None]]] = {
        "cylinder": lambda use: (on.cylinder for line in use.lines if (on := tables.gas.at(line, use.at.at_ms))),
        "fill lot": lambda use: (on.fill_lot for line in use.lines if (on := tables.gas.at(line, use.at.at_ms))),
        "sleeve": lambda use: (use.sleeve,),
        "filler lot": lambda use: (registers.sleeves[use.sleeve].lot if use.sleeve in registers.sleeves else None,),
        "tube heat": lambda use: _heats(tables, use),
        "welder": lambda use: (use.welder,),
        "line": lambda use: use.lines,
        "instrument": lambda use: (use.machine, use.oxygen_by or tables.uses.analyser_at(use.purge_line, use.at.at_ms)),
        "revision": lambda use: (_revision(tables, use),),
        "week": lambda use: (_week(use.day),),
    }
    reader = readers[kind]
    return lambda use: [each for each in reader(use) if each]


def _heats(tables: Tables, use: Use) -> list[str | None]:
    joint = tables.joint_of(use.frame, use.joint)
    parts = joint.parts if joint else ()
    return [piece.heat for piece in tables.pieces_of.get(use.frame, ()) if piece.member in parts]


def _revision(tables: Tables, use: Use) -> str | None:
    name = tables.procedure_of(use)
    held = tables.revisions.in_force(name, use.day) if name else None
    return held.called if held else None


def _week(day: int) -> str:
    year, week, _ = date.fromordinal(day).isocalendar()
    return f"{year}-W{week:02d}"


def shared_of(tables: Tables, uses: Sequence[Use]) -> Shared:
    """Tell of one joint in one attempt, from its passes, where it is and who has its frame."""
    first, registers = uses[0], tables.registers
    shipment = last_shipment(registers, first.frame)
    return Shared(
        subject=first.subject,
        frame=first.frame,
        passes=tuple(use.entry for use in uses),
        at_ms=tuple(use.at.at_ms for use in uses),
        place=_place(tables, first, shipment),
        customer=who_has_it(registers, first.frame),
        shipped_ms=shipment.at if shipment else None,
    )


def _place(tables: Tables, use: Use, shipment: Shipment | None) -> Place:
    if tables.uses.made_again(use):
        return "removed"
    if shipment:
        return "shipped"
    if any(each.permits in ("final inspection", "release") for each in tables.permissions_of.get(use.frame, ())):
        return "finished"
    drawing = tables.drawing_of(use.frame)
    hiding = {cover.by for cover in drawing.covers.get(use.joint, ())} if drawing else set()
    return "covered" if hiding & tables.uses.welded(use.frame) else "in work"


def _checks(tables: Tables, kind: Kind, thing: str, uses: list[Use]) -> list[Beside]:
    """The beads of the lines the passes used, or the checks of the instrument, from just before them to just after."""
    if not uses:
        return []
    if kind in ("cylinder", "fill lot", "line"):
        lines = _lines_of(tables, kind, thing, uses)
        told = [bead for line in sorted(lines) for bead in tables.gas.beads.get(line, ())]
        found = [Beside(t.at.at_ms, f"bead on {t.entry.line}", t.result == "good", t.told_in) for t in told]
    elif kind == "instrument":
        about = [each for each in tables.checks if each.entry.subject == thing]
        found = [Beside(t.at.at_ms, f"{t.entry.check} check", t.result == "good", t.told_in) for t in about]
        calibrations = [each for each in tables.registers.calibrations.values() if each.instrument == thing]
        found += [Beside(each.at, "calibration", each.result == "pass", each.id) for each in calibrations]
    else:
        return []
    found.sort(key=lambda each: each.at_ms)
    first, last = uses[0].at.at_ms, uses[-1].at.at_ms
    before = [each for each in found if each.at_ms <= first][-1:]
    after = [each for each in found if each.at_ms > last][:1]
    return [*before, *(each for each in found if first < each.at_ms <= last), *after]


def _lines_of(tables: Tables, kind: Kind, thing: str, uses: list[Use]) -> set[str]:
    if kind == "line":
        return {thing}
    found = set()
    for use in uses:
        for line in use.lines:
            on = tables.gas.at(line, use.at.at_ms)
            if on and thing in (on.cylinder, on.fill_lot):
                found.add(line)
    return found
