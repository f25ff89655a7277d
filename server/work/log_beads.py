"""Beads found in an attached recording, offered as passes nobody had logged, and logged when their welder says so."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from server.facts.delivery import Receipt
from server.facts.entry import Quarter
from server.facts.equipment import Instrument
from server.facts.moment import show_moment
from server.facts.supplies import Trace
from server.facts.welding import Pass, Run
from server.record.book_of_lines import Record
from server.work.attach_trace import known_instrument
from server.work.frame_passes import TracedPass, one_pass
from server.work.house_entry import Writing, house_entry, house_entry_id
from server.work.refusal import NotYours, Refusal
from server.work.take_deliveries import take_deliveries
from server.work.trace_measured import Measurement, measured_of
from server.work.trace_read import SeenTrace

_INHERITED = ("frame", "joint", "attempt", "torch_line", "purge_line", "trailing_line", "setup", "sleeve", "machine")
_LATE = "found afterwards in a machine's recording"


@dataclass(frozen=True, slots=True)
class BeadOffered:
    """A bead that no pass has yet: when it began and ended by the pass beside it, and what would be logged of it."""

    number: int
    began_ms: int
    ended_ms: int
    measured: Measurement
    logged: bool


@dataclass(frozen=True, slots=True)
class BeadAsked:
    """A bead to be logged as a pass: which, as which run, over which quarters."""

    number: int
    run: Run
    quarters: tuple[Quarter, ...]


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


def offered_beads(beside: Beside, logged: Sequence[str]) -> tuple[BeadOffered, ...]:
    """Say of each free bead what would be logged; `logged` are the ids that are in the record already."""
    return tuple(
        BeadOffered(
            number=number,
            began_ms=beside.offset_ms + round(1000.0 * beside.seen.found.beads[number - 1].start_s),
            ended_ms=beside.offset_ms + round(1000.0 * beside.seen.found.beads[number - 1].end_s),
            measured=_measured(beside, number),
            logged=house_entry_id(bead_name(beside.trace.sha256, number)) in logged,
        )
        for number in beside.free
    )


def log_beads(record: Record, beside: Beside, asked: Sequence[BeadAsked], writing: Writing) -> tuple[Receipt, ...]:
    """Log the beads as passes of the welder who laid them, each with its trace; raises `NotYours` or `Refusal`."""
    welder = beside.to.entry.who
    if writing.who != welder:
        raise NotYours(f"Only the welder who laid a bead logs it: {welder}. Nothing was logged.")
    if not asked:
        raise Refusal("beads: none chosen; tick the beads to log")
    strange = [each.number for each in asked if each.number not in beside.free]
    if strange:
        raise Refusal(f"beads: bead {strange[0]} is not free to be logged; free are {', '.join(map(str, beside.free))}")
    offered = {each.number: each for each in offered_beads(beside, ())}
    entries = [
        entry
        for each in asked
        for entry in (_as_pass(beside, each, offered[each.number]), _as_trace(beside, offered[each.number]))
    ]
    sendings = [
        house_entry(name, replace(writing, after=writing.after + at), told) for at, (name, told) in enumerate(entries)
    ]
    return take_deliveries(record, sendings).result()


def bead_name(sha256: str, number: int) -> str:
    """Name the pass that a bead becomes, so that logging it twice is one entry."""
    return f"bead:{sha256[:16]}:{number}"


def beside_of(record: Record, of: str, sha256: str, seen: SeenTrace) -> Beside | None:
    """Give the recording beside the pass it was attached to last, none when it was not attached to it."""
    with record.reads() as reads:
        to = one_pass(reads, of)
        trace = next((each for each in reversed(to.traces) if each.sha256 == sha256), None)
        return Beside(to, trace, seen, known_instrument(reads, trace.instrument)) if trace else None


def _measured(beside: Beside, number: int) -> Measurement:
    return measured_of(
        beside.seen.beads((number,)), beside.seen.found.sample_hz, beside.instrument, beside.to.entry.values
    )


def _as_pass(beside: Beside, asked: BeadAsked, offered: BeadOffered) -> tuple[str, dict[str, Any]]:
    reference: Pass = beside.to.entry
    inherited = {name: getattr(reference, name) for name in _INHERITED}
    return bead_name(beside.trace.sha256, asked.number), {
        **inherited,
        "kind": "pass",
        "run": asked.run,
        "quarters": list(asked.quarters),
        "arc_started": show_moment(offered.began_ms),
        "happened": show_moment(offered.ended_ms),
        "late_reason": _LATE,
        "note": f"bead {asked.number} of recording {beside.trace.sha256[:16]}, offered beside {reference.id}",
        "values": offered.measured.values,
    }


def _as_trace(beside: Beside, offered: BeadOffered) -> tuple[str, dict[str, Any]]:
    name = bead_name(beside.trace.sha256, offered.number)
    doubt = offered.measured.energy_doubt_j
    return f"trace:{name}", {
        "kind": "trace",
        "of": house_entry_id(name),
        "sha256": beside.trace.sha256,
        "instrument": beside.instrument.id,
        "beads": [offered.number],
        "energy_doubt_j": None if doubt is None else f"{doubt:.2f}",
        "flags": list(offered.measured.flags),
    }
