"""A recording beside the pass it was attached to: which beads are the pass's, which are free, when each was laid."""

from dataclasses import dataclass

from server.facts.equipment import Instrument
from server.facts.supplies import Trace
from server.record.book_of_lines import Record
from server.work.frame_passes import TracedPass, one_pass
from server.work.known_instrument import known_instrument
from server.work.trace_read import SeenTrace


@dataclass(frozen=True, slots=True)
class Beside:
    """An attached recording beside its pass: what the beads not attached are reckoned from."""

    to: TracedPass
    trace: Trace
    seen: SeenTrace
    instrument: Instrument

    @property
    def offset_ms(self) -> int:
        """What turns the recording's seconds into moments: the pass ended when its last bead did."""
        return self.to.entry.happened - round(1000.0 * self.seen.beads(self.trace.beads).end_s)

    @property
    def free(self) -> tuple[int, ...]:
        """The numbers of the beads that do not belong to the pass."""
        known = range(1, len(self.seen.found.beads) + 1)
        return tuple(number for number in known if self.trace.beads and number not in self.trace.beads)


def beside_of(record: Record, of: str, sha256: str, seen: SeenTrace) -> Beside | None:
    """Give the recording beside the pass it was attached to last, none when it was not attached to it."""
    with record.reads() as reads:
        to = one_pass(reads, of)
        trace = next((each for each in reversed(to.traces) if each.sha256 == sha256), None)
        return Beside(to, trace, seen, known_instrument(reads, trace.instrument)) if trace else None
