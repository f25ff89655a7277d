"""The things welds share, by kind, and how each pass is asked which of them it used."""

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from functools import cache
from typing import Literal, NamedTuple, get_args

from server.facts.equipment import Window
from server.facts.looked_up import gathered, looked_up
from server.facts.registers import Registers
from server.occasions.tables import Tables
from server.occasions.uses import Use

Kind = Literal[
    "cylinder", "fill lot", "sleeve", "filler lot", "tube heat", "welder", "bench", "line", "instrument", "revision",
    "week", "fixture",
]  # fmt: skip
KINDS: tuple[Kind, ...] = get_args(Kind)
COUNTED: tuple[Kind, ...] = ("fill lot", "cylinder", "filler lot", "sleeve", "tube heat", "welder", "bench", "revision")
"""The kinds by which claims are counted."""
Reader = Callable[[Use], list[str]]
_Told = Callable[[Use], Iterable[str | None]]


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
    sleeves, gas = tables.registers.sleeves, tables.gas
    readers: dict[Kind, Callable[[], _Told]] = {
        "cylinder": lambda: lambda use: (
            on.cylinder for line in use.lines if (on := gas.at(line, use.at.at_ms))
        ),
        "fill lot": lambda: lambda use: (
            on.fill_lot for line in use.lines if (on := gas.at(line, use.at.at_ms))
        ),
        "sleeve": lambda: lambda use: (use.sleeve,),
        "filler lot": lambda: lambda use: (label.lot if (label := sleeves.get(use.sleeve or "")) else None,),
        "tube heat": lambda: lambda use: _heats(tables, use),
        "welder": lambda: lambda use: (use.welder,),
        "bench": lambda: _benches(tables),
        "line": lambda: lambda use: use.lines,
        "instrument": lambda: lambda use: (
            use.machine, use.oxygen_by or tables.uses.analyser_at(use.purge_line, use.at.at_ms)
        ),
        "revision": lambda: lambda use: (_revision(tables, use),),
        "week": lambda: lambda use: (_week(use.day),),
        "fixture": lambda: _fixtures(tables),
    }  # fmt: skip
    read = readers[kind]()
    return lambda use: [each for each in read(use) if each]


def _heats(tables: Tables, use: Use) -> list[str | None]:
    joint = tables.joint_of(use.frame, use.joint)
    parts = joint.parts if joint else ()
    return [piece.heat for piece in tables.pieces_of.get(use.frame, ()) if piece.member in parts]


def _benches(tables: Tables) -> _Told:
    fed = _benches_of(tables.registers)
    return lambda use: dict.fromkeys(bench for line in use.lines for bench in fed.get(line, ()))


def _benches_of(registers: Registers) -> Mapping[str, tuple[str, ...]]:
    """The benches each line feeds."""
    told = gathered(registers, "benches by line", registers.benches, lambda each: (each.torch_line, each.purge_line))

    def read() -> Mapping[str, tuple[str, ...]]:
        return {line: tuple(bench.id for bench in benches) for line, benches in told.items()}

    return looked_up(registers, "names of benches by line", (told,), read)


def _fixtures(tables: Tables) -> _Told:
    """What stood at the bench then, by the windows the shop keeps."""
    windows = tables.registers.windows
    benches = _benches(tables)
    stood = gathered(tables.registers, "fixtures by bench", windows, _bench_of_fixture)

    def read(use: Use) -> Iterable[str | None]:
        there = (each for bench in benches(use) for each in stood.get(bench or "", ()))
        return (each.subject for each in there if _stood(each, use.at.at_ms))

    return read


def _bench_of_fixture(window: Window) -> list[str]:
    return [str(window.bench)] if window.what == "fixture at bench" else []


def _stood(window: Window, at_ms: int) -> bool:
    return window.since <= at_ms and (window.until is None or at_ms < window.until)


def _revision(tables: Tables, use: Use) -> str | None:
    name = tables.procedure_of(use)
    held = tables.revisions.in_force(name, use.day) if name else None
    return held.called if held else None


@cache
def _week(day: int) -> str:
    year, week, _ = date.fromordinal(day).isocalendar()
    return f"{year}-W{week:02d}"
