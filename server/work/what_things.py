"""The things welds share, by kind, and how each pass is asked which of them it used."""

from collections.abc import Callable, Iterable, Sequence
from datetime import date
from typing import Literal, NamedTuple, get_args

from server.occasions.tables import Tables
from server.occasions.timed import Timed
from server.occasions.uses import Use, Uses

Kind = Literal[
    "cylinder", "fill lot", "sleeve", "filler lot", "tube heat", "welder", "bench", "line", "instrument", "revision",
    "week", "fixture",
]  # fmt: skip
KINDS: tuple[Kind, ...] = get_args(Kind)
_A_DAY_MS = 86_400_000
FAR_MS = 1 << 62
Reader = Callable[[Use], list[str]]


class Thing(NamedTuple):
    """One thing somebody asks by."""

    kind: Kind
    name: str

    @property
    def words(self) -> str:
        """Say it in words."""
        return f"{self.kind} {self.name}"


def reader(tables: Tables, kind: Kind) -> Reader:
    """Give how to read from a pass the things of one kind that it used."""
    registers = tables.registers
    readers: dict[Kind, Callable[[Use], Iterable[str | None]]] = {
        "cylinder": lambda use: (on.cylinder for line in use.lines if (on := tables.gas.at(line, use.at.at_ms))),
        "fill lot": lambda use: (on.fill_lot for line in use.lines if (on := tables.gas.at(line, use.at.at_ms))),
        "sleeve": lambda use: (use.sleeve,),
        "filler lot": lambda use: (label.lot if (label := registers.sleeves.get(use.sleeve or "")) else None,),
        "tube heat": lambda use: _heats(tables, use),
        "welder": lambda use: (use.welder,),
        "bench": lambda use: _benches(tables, use),
        "line": lambda use: use.lines,
        "instrument": lambda use: (use.machine, use.oxygen_by or tables.uses.analyser_at(use.purge_line, use.at.at_ms)),
        "revision": lambda use: (_revision(tables, use),),
        "week": lambda use: (_week(use.day),),
        "fixture": lambda use: _fixtures(tables, use),
    }
    read = readers[kind]
    return lambda use: [each for each in read(use) if each]


def uses_of_all(tables: Tables, asked: Iterable[Thing]) -> list[Use]:
    """Give the passes that used every one of the things."""
    things = list(asked)
    wanted = [(reader(tables, each.kind), each.name) for each in things]
    fewest = min((_maybe(tables, each) for each in things), key=len, default=tables.uses.all)
    return [use for use in fewest if all(name in read(use) for read, name in wanted)]


def _maybe(tables: Tables, thing: Thing) -> Sequence[Use]:
    """The passes that may have used a thing, in true time: few where passes name it, all where it must be looked up."""
    uses, name = tables.uses, thing.name
    named: dict[Kind, Callable[[], Sequence[Use]]] = {
        "line": lambda: uses.by_line.get(name, []),
        "welder": lambda: uses.by_welder.get(name, []),
        "sleeve": lambda: uses.by_sleeve.get(name, []),
        "instrument": lambda: uses.resting_on(name),
        "cylinder": lambda: _under(tables, [name]),
        "fill lot": lambda: uses_of_lot(tables, name),
        "filler lot": lambda: uses.in_order(
            use for each in tables.registers.sleeves.values() if each.lot == name
            for use in uses.by_sleeve.get(each.id, ())
        ),
        "tube heat": lambda: _of_frames(uses, {it.frame for it in tables.registers.pieces.values() if it.heat == name}),
        "bench": lambda: _on_lines(uses, _lines_of_bench(tables, name)),
        "week": lambda: _in_week(tables, name),
    }  # fmt: skip
    return named[thing.kind]() if thing.kind in named else uses.all


def _under(tables: Tables, cylinders: Iterable[str], lot: str = "") -> Sequence[Use]:
    """What was welded from the changes that put one of these cylinders on, or one said to be of a lot."""
    gas, uses = tables.gas, tables.uses
    changes = [change for each in cylinders for change in gas.naming("cylinder", each)]
    changes += gas.naming("fill lot", lot) if lot else ()
    return uses.in_order(use for change in changes for use in _from(tables, change))


def _from(tables: Tables, change: Timed) -> Sequence[Use]:
    following = tables.gas.change_after(change)
    until_ms = following.at.at_ms if following else FAR_MS
    return tables.uses.on_line(change.entry.line, change.at.at_ms - 1, until_ms)


def uses_of_lot(tables: Tables, lot: str) -> Sequence[Use]:
    """Give the passes that may have been under gas of a fill lot."""
    found = tables.registers.fill_lots.get(lot)
    return _under(tables, found.cylinders if found else (), lot)


def _of_frames(uses: Uses, frames: Iterable[str]) -> Sequence[Use]:
    return uses.in_order(use for frame in frames for use in uses.by_frame.get(frame, ()))


def _in_week(tables: Tables, name: str) -> Sequence[Use]:
    try:
        year, week = name.split("-W")
        monday = date.fromisocalendar(int(year), int(week), 1).toordinal()
    except ValueError:
        return ()
    days = tables.days
    return tables.uses.between(days.start_ms(monday) - _A_DAY_MS, days.start_ms(monday + 7) + _A_DAY_MS)


def _on_lines(uses: Uses, lines: Iterable[str]) -> Sequence[Use]:
    return uses.in_order(use for line in lines for use in uses.by_line.get(line, ()))


def _lines_of_bench(tables: Tables, name: str) -> tuple[str, ...]:
    bench = tables.registers.benches.get(name)
    return (bench.torch_line, bench.purge_line) if bench else ()


def known_names(tables: Tables, kind: Kind) -> list[str]:
    """Give every thing of one kind that stands under a pass."""
    read = reader(tables, kind)
    return sorted({each for use in tables.uses.all for each in read(use)})


def _heats(tables: Tables, use: Use) -> list[str | None]:
    joint = tables.joint_of(use.frame, use.joint)
    parts = joint.parts if joint else ()
    return [piece.heat for piece in tables.pieces_of.get(use.frame, ()) if piece.member in parts]


def _benches(tables: Tables, use: Use) -> list[str]:
    benches = tables.registers.benches.values()
    return [each.id for each in benches if {each.torch_line, each.purge_line} & set(use.lines)]


def _fixtures(tables: Tables, use: Use) -> list[str]:
    """What stood at the bench then, by the windows the shop keeps."""
    benches, at_ms = set(_benches(tables, use)), use.at.at_ms
    return [
        each.subject
        for each in tables.registers.windows.values()
        if each.what == "fixture at bench"
        and each.bench in benches
        and each.since <= at_ms
        and (each.until is None or at_ms < each.until)
    ]


def _revision(tables: Tables, use: Use) -> str | None:
    name = tables.procedure_of(use)
    held = tables.revisions.in_force(name, use.day) if name else None
    return held.called if held else None


def _week(day: int) -> str:
    year, week, _ = date.fromordinal(day).isocalendar()
    return f"{year}-W{week:02d}"
