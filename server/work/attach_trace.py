"""Attaches a machine's recording to one pass: the file is kept, and its measured energy is added, replacing nothing."""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass

from server.facts.delivery import Receipt
from server.record.book_of_lines import Record
from server.record.files import Files
from server.record.reads import Reads
from server.work.frame_passes import TracedPass, frame_passes, one_pass
from server.work.house_entry import Writing, house_entry, house_entry_id
from server.work.known_instrument import known_instrument
from server.work.refusal import Refusal
from server.work.take_deliveries import take_deliveries
from server.work.told_once import DoneBefore
from server.work.trace_measured import Measurement, measured_for
from server.work.trace_read import GUESSED, ReadAs, SeenTrace, read_trace


class AttachedBefore(Refusal):
    """These beads of this recording are attached already, to this pass or to another."""


class AttachedTwice(AttachedBefore, DoneBefore):
    """These very beads are attached to this very pass already."""


@dataclass(frozen=True, slots=True)
class TraceAsked:
    """A recording for a pass: whose instrument, which beads (none: all), how it is read, who asks."""

    of: str
    instrument: str
    content: bytes
    who: str
    role: str | None = None
    beads: tuple[int, ...] = ()
    read_as: ReadAs = GUESSED

    @property
    def sha256(self) -> str:
        """The name its file is kept under."""
        return hashlib.sha256(self.content).hexdigest()

    @property
    def entry_name(self) -> str:
        """A name made of the recording, the beads and the pass, so that the same asked twice is one entry."""
        numbers = ",".join(map(str, sorted(set(self.beads))))
        about = hashlib.sha256(f"{self.of}\n{numbers}\n{self.instrument}".encode()).hexdigest()
        return f"trace:{self.sha256[:16]}:{about[:12]}"


@dataclass(frozen=True, slots=True)
class Attached:
    """The receipt, the pass it went to, the recording as it was read, and what it measured."""

    receipt: Receipt
    to: TracedPass
    seen: SeenTrace
    measured: Measurement


def attach_trace(record: Record, files: Files, asked: TraceAsked, now_ms: int) -> Attached:
    """Read, keep and attach; raises `Unreadable`, `NotThere` or `AttachedBefore`, and then nothing was recorded."""
    seen = read_trace(asked.content, asked.read_as)
    with record.reads() as reads:
        to, instrument = one_pass(reads, asked.of), known_instrument(reads, asked.instrument)
        _refuse_twice(reads, asked)
        _refuse_claimed(frame_passes(reads, to.entry.frame), asked, seen)
        writing = Writing(asked.who, asked.role, now_ms, reads.last_position())
    measured = measured_for(to, seen, instrument, asked.beads)
    files.keep(asked.content)
    told = {
        "kind": "trace",
        "of": asked.of,
        "sha256": asked.sha256,
        "instrument": instrument.id,
        "beads": sorted(set(asked.beads)),
        "values": measured.values,
        "energy_doubt_j": None if measured.energy_doubt_j is None else f"{measured.energy_doubt_j:.2f}",
        "flags": list(measured.flags),
    }
    (receipt,) = take_deliveries(record, [house_entry(asked.entry_name, writing, told)]).result()
    return Attached(receipt, to, seen, measured)


def _refuse_claimed(passes: Sequence[TracedPass], asked: TraceAsked, seen: SeenTrace) -> None:
    """One bead was laid once: it cannot be the energy of two passes of a frame."""
    every = range(1, len(seen.found.beads) + 1)
    for other in passes:
        claimed = {bead for trace in other.traces if trace.sha256 == asked.sha256 for bead in trace.beads or every}
        shared = sorted(claimed & set(asked.beads or every))
        if shared and other.entry.id != asked.of:
            what = f"{other.entry.joint} {other.entry.run}, {other.entry.id}"
            raise AttachedBefore(f"beads: bead {shared[0]} belongs to another pass already ({what}); take its tick off")


def _refuse_twice(reads: Reads, asked: TraceAsked) -> None:
    if reads.line(house_entry_id(asked.entry_name)) is not None:
        raise AttachedTwice("trace: these beads are attached to this pass already; nothing was added")
