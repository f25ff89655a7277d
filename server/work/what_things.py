"""The things welds share, by kind, and how each pass is asked which of them it used."""

from collections.abc import Callable, Iterable, Sequence
from datetime import date
from typing import Literal, NamedTuple, get_args

from server.occasions.tables import Tables
from server.occasions.uses import Use, Uses

Kind = Literal[
    "cylinder", "fill lot", "sleeve", "filler lot", "tube heat", "welder", "bench", "line", "instrument", "revision",
    "week", "fixture",
]  # fmt: skip
KINDS: tuple[Kind, ...] = get_args(Kind)
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
        "filler lot": lambda use: (registers.sleeves[use.sleeve].lot if use.sleeve in registers.sleeves else None,),
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
        "cylinder": lambda: _on_lines(uses, tables.gas.lines_of(name)),
        "bench": lambda: _on_lines(uses, _lines_of_bench(tables, name)),
    }
    return named[thing.kind]() if thing.kind in named else uses.all


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
