"""Beads found in an attached recording become passes nobody had logged, when the welder who laid them says so."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from server.facts.delivery import Receipt
from server.facts.entry import Quarter
from server.facts.moment import show_moment
from server.facts.welding import Pass, Run
from server.record.book_of_lines import Record
from server.work.beside_trace import Beside
from server.work.frame_passes import PassQuestions
from server.work.house_entry import Writing, house_entry, house_entry_id
from server.work.offered_beads import BeadOffered, bead_name, offered_beads
from server.work.refusal import NotYours, Refusal
from server.work.take_deliveries import take_deliveries
from server.work.told_once import DoneBefore

_INHERITED = ("frame", "joint", "attempt", "torch_line", "purge_line", "trailing_line", "setup", "sleeve", "machine")
_LATE = "found afterwards in a machine's recording"


@dataclass(frozen=True, slots=True)
class BeadAsked:
    """A bead to be logged as a pass: which, as which run, over which quarters."""

    number: int
    run: Run
    quarters: tuple[Quarter, ...]


def log_beads(record: Record, beside: Beside, asked: Sequence[BeadAsked], writing: Writing) -> tuple[Receipt, ...]:
    """Log the beads as passes of the welder who laid them, each with its trace; raises `NotYours` or `Refusal`."""
    welder = beside.to.entry.who
    if writing.who != welder:
        raise NotYours(f"Only the welder who laid a bead logs it: {welder}. Nothing was logged.")
    with record.reads() as reads:
        offered = {each.number: each for each in offered_beads(reads, beside)}
        _refuse_twice(reads, beside, asked)
    _refuse_what_is_not_free(asked, offered)
    entries = [
        entry
        for each in asked
        for entry in (_as_pass(beside, each, offered[each.number]), _as_trace(beside, offered[each.number]))
    ]
    sendings = [
        house_entry(name, replace(writing, after=writing.after + at), told) for at, (name, told) in enumerate(entries)
    ]
    return take_deliveries(record, sendings).result()


def _refuse_twice(reads: PassQuestions, beside: Beside, asked: Sequence[BeadAsked]) -> None:
    ids = {house_entry_id(bead_name(beside, each.number)): (each.run, each.quarters) for each in asked}
    logged = {each.entry.id: each.entry for each in reads.entries_named(ids)}
    told = {name: (it.run, it.quarters) for name, it in logged.items() if isinstance(it, Pass)}
    if asked and told == ids:
        named = " and ".join(str(each.number) for each in asked)
        raise DoneBefore(f"beads: bead {named} is logged already, as it is asked here; nothing was added")


def _refuse_what_is_not_free(asked: Sequence[BeadAsked], offered: Mapping[int, BeadOffered]) -> None:
    if not asked:
        raise Refusal("beads: none chosen; tick the beads to log")
    for each in asked:
        if each.number not in offered:
            free = ", ".join(map(str, offered)) or "none"
            raise Refusal(f"beads: bead {each.number} is not free to be logged; free are {free}. Nothing was logged.")
        if offered[each.number].logged:
            raise Refusal(f"beads: bead {each.number} is logged already; take its tick off. Nothing was logged.")


def _as_pass(beside: Beside, asked: BeadAsked, offered: BeadOffered) -> tuple[str, dict[str, Any]]:
    reference, recording = beside.to.entry, beside.trace.sha256[:16]
    return bead_name(beside, asked.number), {
        **{name: getattr(reference, name) for name in _INHERITED},
        "kind": "pass",
        "run": asked.run,
        "quarters": list(asked.quarters),
        "arc_started": show_moment(offered.began_ms),
        "happened": show_moment(offered.ended_ms),
        "late_reason": _LATE,
        "note": f"bead {asked.number} of recording {recording}, offered beside {reference.id}",
        "values": offered.measured.values,
    }


def _as_trace(beside: Beside, offered: BeadOffered) -> tuple[str, dict[str, Any]]:
    name, doubt_j = bead_name(beside, offered.number), offered.measured.energy_doubt_j
    return f"trace:{name}", {
        "kind": "trace",
        "of": house_entry_id(name),
        "sha256": beside.trace.sha256,
        "instrument": beside.instrument.id,
        "beads": [offered.number],
        "energy_doubt_j": None if doubt_j is None else f"{doubt_j:.2f}",
        "flags": list(offered.measured.flags),
    }
