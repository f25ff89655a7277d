"""What measures at a bench at a moment: its machine, and the instruments brought there, its own, the shared."""

from collections.abc import Callable, Iterable, Mapping
from itertools import islice
from operator import attrgetter
from typing import NamedTuple

from server.facts.equipment import Bench, Instrument, Uncertainty, Window
from server.facts.looked_up import gathered, looked_up
from server.facts.registers import Registers

MOST_SHARED = 12
"""Of the shared ones so many are told for each quantity; a tablet names the first, any other goes by its label."""
_id = attrgetter("id")


class AtHand(NamedTuple):
    """The machine that counts and the instruments that read; of those that read one quantity the first is taken.

    What belongs to no bench is at hand on each; of many such only the first for each quantity are told.
    """

    machine: Instrument | None
    instruments: tuple[Instrument, ...]

    def counts(self, quantity: str) -> Uncertainty | None:
        """Give how sure the machine's count of a quantity is; none on file."""
        told = self.machine.reads if self.machine else ()
        return next((each for each in told if each.quantity == quantity), None)

    def reads(self, quantity: str) -> Uncertainty | None:
        """Give how sure a reading is, by the instrument a tablet at this bench names for it; none on file."""
        told = (each for instrument in self.instruments for each in instrument.reads)
        return next((each for each in told if each.quantity == quantity), None)


def at_hand(registers: Registers, bench: Bench, at_ms: int) -> AtHand:
    """Give what measures at a bench at a moment [ms, UTC]; what was brought to another bench is not here."""
    where = _Brought(registers, at_ms)
    known, by_bench = registers.instruments, _by_bench(registers)
    names = [*where.ever_to(bench.id), *(each.id for each in by_bench.get(bench.id, ()))]
    told = [known[name] for name in dict.fromkeys(names) if name in known]
    here = [each for each in told if each.reads and where.get(each.id, each.bench) in (None, bench.id)]
    here = [each for each in here if each.bench or where.get(each.id)]
    here += _shared(registers, lambda each: where.get(each.id) is None)
    here.sort(key=lambda each: (where.get(each.id) != bench.id, each.bench is None, each.id))
    return AtHand(registers.instruments.get(bench.machine or ""), tuple(here))


class _Brought:
    """Where each instrument was brought at a moment: the last window told that is open then."""

    def __init__(self, registers: Registers, at_ms: int) -> None:
        def brought(each: Window) -> bool:
            return each.what == "instrument at bench"

        windows = registers.windows
        self._of = gathered(registers, "brought", windows, lambda each: [each.subject] if brought(each) else [])
        self._to = gathered(registers, "brought to", windows, lambda each: [each.bench or ""] if brought(each) else [])
        self._at_ms = at_ms

    def ever_to(self, bench: str) -> Iterable[str]:
        """Give what was ever brought to a bench, or to none."""
        return (each.subject for to in (bench, "") for each in self._to.get(to, ()))

    def get(self, name: str, otherwise: str | None = None) -> str | None:
        """Give the bench one is at, if it was brought anywhere."""
        told = (each.bench for each in reversed(self._of.get(name, ())) if _is_open(each, self._at_ms))
        return next(told, otherwise)


def _shared(registers: Registers, free: Callable[[Instrument], bool]) -> Iterable[Instrument]:
    """Give the first free ones for each quantity."""
    by_quantity = _shared_by_quantity(registers).values()
    offered = (each for found in by_quantity for each in islice(filter(free, found), MOST_SHARED))
    return {each.id: each for each in offered}.values()


def _shared_by_quantity(registers: Registers) -> Mapping[str, list[Instrument]]:
    def read() -> Mapping[str, list[Instrument]]:
        found: dict[str, list[Instrument]] = {}
        for each in sorted(_by_bench(registers).get("", ()), key=_id):
            for quantity in dict.fromkeys(one.quantity for one in each.reads):
                found.setdefault(quantity, []).append(each)
        return found

    return looked_up(registers, "shared instruments", (registers.instruments,), read)


def _by_bench(registers: Registers) -> Mapping[str, tuple[Instrument, ...]]:
    return gathered(registers, "instruments by bench", registers.instruments, lambda each: [each.bench or ""])


def _is_open(window: Window, at_ms: int) -> bool:
    return window.since <= at_ms and (window.until is None or at_ms < window.until)
