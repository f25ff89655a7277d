"""The things somebody may ask by, found by a part of their name, so that nobody has to know a tag by heart."""

from collections.abc import Callable, Iterable, Mapping
from itertools import islice
from typing import NamedTuple

from server.facts.registers import Registers
from server.work.what_things import Kind

_AT_MOST = 20
_Named = Iterable[tuple[str, str]]


class Named(NamedTuple):
    """A thing by its name, and what else is known of it in a few words."""

    name: str
    words: str


def things_named(registers: Registers, kind: Kind, typed: str) -> list[Named]:
    """Give the twenty told last whose name or words have what was typed in them; weeks are in no register."""
    part = typed.strip().casefold()
    told = reversed([Named(*each) for each in dict(_NAMED[kind](registers)).items()])
    return list(islice((each for each in told if any(part in said.casefold() for said in each)), _AT_MOST))


def _of_lots(registers: Registers) -> _Named:
    return ((each, f"fill lot {lot.id}") for lot in registers.fill_lots.values() for each in lot.cylinders)


def _welders(registers: Registers) -> _Named:
    return ((each.id, each.name) for each in registers.people.values() if "welder" in each.roles)


def _fixtures(registers: Registers) -> _Named:
    stood = (each for each in registers.windows.values() if each.what == "fixture at bench")
    return ((each.subject, f"at {each.bench}") for each in stood)


def _lines(registers: Registers) -> _Named:
    for bench in registers.benches.values():
        lines = {"torch": bench.torch_line, "trailing": bench.trailing_line, "purge": bench.purge_line}
        yield from ((line, f"{what} gas of {bench.title}") for what, line in lines.items() if line)


def _many(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"


_NAMED: Mapping[Kind, Callable[[Registers], _Named]] = {
    "cylinder": _of_lots,
    "fill lot": lambda told: ((each.id, _many(len(each.cylinders), "cylinder")) for each in told.fill_lots.values()),
    "sleeve": lambda told: ((each.id, f"{each.filler_class}, lot {each.lot}") for each in told.sleeves.values()),
    "filler lot": lambda told: ((each.id, each.filler_class) for each in told.filler_lots.values()),
    "tube heat": lambda told: ((each.id, each.metal) for each in told.heats.values()),
    "welder": _welders,
    "bench": lambda told: ((each.id, each.title) for each in told.benches.values()),
    "line": _lines,
    "instrument": lambda told: ((each.id, each.title) for each in told.instruments.values()),
    "revision": lambda told: ((each.called, each.title) for each in told.procedures.values()),
    "week": lambda _: (),
    "fixture": _fixtures,
}
