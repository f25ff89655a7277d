"""Beads of a recording that belong to no pass: what each would be as a pass, offered to the welder who laid it."""

from dataclasses import dataclass

from server.work.beside_trace import Beside
from server.work.frame_passes import PassQuestions
from server.work.house_entry import house_entry_id
from server.work.trace_measured import Measurement, measured_of


@dataclass(frozen=True, slots=True)
class BeadOffered:
    """A free bead: when it began and ended by the pass beside it, what would be logged of it, whether it is already."""

    number: int
    began_ms: int
    ended_ms: int
    measured: Measurement
    logged: bool


def offered_beads(reads: PassQuestions, beside: Beside) -> tuple[BeadOffered, ...]:
    """Say of each free bead what would be logged; nothing is."""
    names = {number: house_entry_id(bead_name(beside, number)) for number in beside.free}
    logged = {each.entry.id for each in reads.entries_named(names.values())}
    return tuple(_offer(beside, number, names[number] in logged) for number in beside.free)


def bead_name(beside: Beside, number: int) -> str:
    """Name the pass that a bead becomes, so that logging it twice is one entry."""
    return f"bead:{beside.trace.sha256[:16]}:{number}"


def _offer(beside: Beside, number: int, logged: bool) -> BeadOffered:
    bead, hz = beside.seen.beads((number,)), beside.seen.found.sample_hz
    return BeadOffered(
        number=number,
        began_ms=beside.offset_ms + round(1000.0 * bead.start_s),
        ended_ms=beside.offset_ms + round(1000.0 * bead.end_s),
        measured=measured_of(bead, hz, beside.instrument, beside.to.entry.values),
        logged=logged,
    )
