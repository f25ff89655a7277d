"""What measures at a bench at a moment: its machine, and the instruments brought there, its own, the shared."""

from typing import NamedTuple

from server.facts.equipment import Bench, Instrument, Uncertainty, Window
from server.facts.registers import Registers


class AtHand(NamedTuple):
    """The machine that counts and the instruments that read; of those that read one quantity the first is taken."""

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
    where = {each.subject: each.bench for each in registers.windows.values() if _is_open(each, at_ms)}
    known = [each for each in registers.instruments.values() if each.reads]
    here = [each for each in known if where.get(each.id, each.bench) in (None, bench.id)]
    here.sort(key=lambda each: (where.get(each.id) != bench.id, each.bench is None, each.id))
    return AtHand(registers.instruments.get(bench.machine or ""), tuple(here))


def _is_open(window: Window, at_ms: int) -> bool:
    started = window.what == "instrument at bench" and window.since <= at_ms
    return started and (window.until is None or at_ms < window.until)
