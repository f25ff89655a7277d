"""The registers, read once and then carried on from line to line; any earlier state can still be asked for."""

import logging
import threading
from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from server.facts.customers import CustomerNumber, DetailsRemoved, NamelessCustomer
from server.facts.layered import layered
from server.facts.register_line import AnyRegisterLine, ReleasedText
from server.facts.registers import Registers
from server.record.keeping_details import KeptDetails
from server.record.kept_nouns import KEPT_REGISTER_LINES
from server.record.known_customers import tell_customer, tell_removal, without_removed

_LOG = logging.getLogger(__name__)
_KEPT = 16

FIELD_OF: dict[str, str] = {
    "person": "people",
    "qualification": "qualifications",
    "confirmation": "confirmations",
    "range table": "range_tables",
    "change table": "change_tables",
    "bench": "benches",
    "instrument": "instruments",
    "calibration": "calibrations",
    "window": "windows",
    "acceptance": "acceptance",
    "filler lot": "filler_lots",
    "rod sleeve": "sleeves",
    "fill lot": "fill_lots",
    "analysis": "analyses",
    "tube heat": "heats",
    "composition limits": "compositions",
    "piece": "pieces",
    "packet": "packets",
    "customer": "customers",
    "customer number": "customers",
    "details removed": "customer_removals",
    "shipment": "shipments",
    "ownership": "ownerships",
    "stand-in": "stand_ins",
    "decision": "decisions",
    "permission": "permissions",
    "concession": "concessions",
    "nonconformity": "nonconformities",
    "narrowing": "narrowings",
    "sample draw": "sample_draws",
    "second look": "second_looks",
    "certificate file": "certificate_files",
    "continuation": "continuations",
    "claim": "claims",
    "claim step": "claim_steps",
    "door change": "door_changes",
    "containment": "containments",
    "containment step": "containment_steps",
    "legal hold": "legal_holds",
}


class KnownRegisters:
    """A few states of the registers by the position of their last line; shared by all readers.

    What an open transaction of the writer wrote may be taken back, so a state that knows it is given to nobody else.
    """

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._states: dict[int, Registers] = {0: Registers()}
        self._unkept: tuple[object, Registers] = (None, Registers())
        self._removed: dict[str, DetailsRemoved] = {}

    def nearest(self, position: int, turn: object = None) -> Registers:
        """Give the newest known state that knows nothing behind the position; `turn` is the writer's transaction."""
        of, unkept = self._unkept
        with self._lock:
            kept = self._states[max(known for known in self._states if known <= position)]
        mine = turn is not None and of is turn and kept.known_at < unkept.known_at <= position
        return unkept if mine else kept

    def keep(self, state: Registers) -> None:
        """Keep a state for whoever asks next, and let the oldest go when there are many.

        Details removed by now are let go of in every state, also in those of before.
        """
        with self._lock:
            if not state.customer_removals.keys() <= self._removed.keys():
                self._removed = {**self._removed, **state.customer_removals}
                self._states = {known: self._without_removed(each) for known, each in self._states.items()}
            self._states[state.known_at] = self._without_removed(state)
            for known in sorted(self._states)[1 : len(self._states) - _KEPT]:
                del self._states[known]

    def _without_removed(self, state: Registers) -> Registers:
        left = self._removed.keys() & state.customers.keys()
        if all(isinstance(state.customers[each], NamelessCustomer) for each in left):
            return state
        return replace(state, customers=without_removed(state.customers, self._removed, state.zone))

    def keep_for(self, turn: object, state: Registers) -> None:
        """Keep a state for the rest of the writer's transaction, in which more verbs will ask for it."""
        self._unkept = (turn, state)


def carried_on(
    state: Registers, lines: Iterable[tuple[int, bytes]], details: Mapping[int, KeptDetails] | None = None
) -> Registers:
    """Give the registers with further lines told, each at its position; the state before stays as it was.

    `details` are those of customers, by the positions of their lines.
    """
    registers: dict[str, Any] = {"shop": state.shop, "positions": {}, "looked_up": dict(state.looked_up)}
    for position, body in lines:
        noun = KEPT_REGISTER_LINES.read(body)
        # What nothing was told of stays the very same, so that what was gathered from it still holds.
        for name in _fields_of(noun):
            registers.setdefault(name, {})
        if isinstance(noun, CustomerNumber):
            tell_customer(registers, noun, (details or {}).get(position))
        else:
            _tell(registers, noun)
        registers["positions"][f"{noun.kind}:{noun.id}"] = registers["known_at"] = position
    return replace(state, **{name: _onto(state, name, told) for name, told in registers.items()})


def at_position(state: Registers, known_at: int) -> Registers:
    """Give the same registers, saying up to which position they were asked for."""
    return replace(state, known_at=known_at)


def read_released(line: ReleasedText) -> Any:
    """Read the text of a procedure or a design as it was released; raises what its reader complains of."""
    if line.kind == "procedure":
        from server.procedures.reading import read_procedure

        return read_procedure(line.text, line.file)
    from server.plan.reading import read_design

    return read_design(line.text, line.file)


def _onto(state: Registers, name: str, told: Any) -> Any:
    """Give a field with what was told lying over what stood."""
    return layered(getattr(state, name), told) if isinstance(told, dict) and name != "looked_up" else told


def _fields_of(noun: AnyRegisterLine) -> tuple[str, ...]:
    if isinstance(noun, ReleasedText):
        return ("procedures",) if noun.kind == "procedure" else ("designs",)
    if noun.kind == "shop":
        return ()
    told = FIELD_OF[noun.kind]
    return (told, "customers") if isinstance(noun, DetailsRemoved) else (told,)


def _tell(registers: dict[str, Any], noun: AnyRegisterLine) -> None:
    if isinstance(noun, ReleasedText):
        _tell_released(registers, noun)
    elif isinstance(noun, DetailsRemoved):
        tell_removal(registers, noun)
    elif noun.kind == "shop":
        registers["shop"] = noun
    else:
        key = noun.frame if noun.kind == "packet" else noun.id
        registers[FIELD_OF[noun.kind]][key] = noun


def _tell_released(registers: dict[str, Any], line: ReleasedText) -> None:
    try:
        found = read_released(line)
    except ValueError as complaint:
        # It was readable when it was released; one line no longer read must not close the whole record.
        _LOG.error("the released %s %s can no longer be read: %s", line.kind, line.id, complaint)
        return
    if line.kind == "procedure":
        registers["procedures"][found.name, found.revision] = found
    else:
        registers["designs"][found.name] = found
