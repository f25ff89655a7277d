"""A shop carried on line by line is the shop made from nothing, whatever comes in whatever order."""

import gc
import weakref
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from server.facts.registers import Registers
from server.occasions.build import Shop
from server.occasions.clocks import Clocks
from server.occasions.filed import NotFiled, in_order_again
from server.occasions.known import Known
from server.occasions.tables import Tables
from server.work.field_lives import Group, field_lives
from server.work.sets_in_short import sets_in_short
from tests.facts.test_in_parts import few_are_many
from tests.judgement.barrow_works import registers_with
from tests.judgement.case_page import SHARED
from tests.judgement.test_any_order import LINES, OF_X1, OF_X2, Sent, sent

MENDING = """
11:40 correction bad withdraw=yes reason=slip id=back
11:45 correction back withdraw=yes reason=slip
11:46 correction fill purge_line=S-P reason=slip
11:47 cylinder N-P on=CY-1 kept_flowing=yes device=PAD
08:57 cylinder N-P on=CY-3 id=change device=PAD
12:31 check cross AN good against=AN2 oxygen=9 other.oxygen=7
12:32 correction change on=CY-1 reason=slip
11:50 bead N-P waiting id=late
12:20 bead N-P failed of=late
12:30 correction late line=N-T reason=slip
"""
SOME, ALL = registers_with([], {}), registers_with(LINES, {})
_SIGNED = [{"person": "QUI", "role": "quality lead", "at": "2031-03-12T08:00", "meaning": "agreed",
            "shown_sha256": "0"}]  # fmt: skip
_CURVE = {"as_found": [["20", "0"], ["120", "20"]], "found_uncertainty": "3"}


def narrowing(name: str, check: str, by: str, **further: str) -> dict[str, Any]:
    return {"kind": "narrowing", "id": name, "check": check, "by": by, "reason": "so it was"} | further | {
        "signatures": _SIGNED
    }  # fmt: skip


FOUND_WRONG = {"kind": "calibration", "id": "CAL-1", "instrument": "AN", "at": "2031-03-15T08:00", "result": "fail"}
BAD_BEAD = "N-P@2031-03-10T07:00:00Z|purge-bead"
PAPERS: dict[str, list[dict[str, Any]]] = {
    "narrowings": [
        narrowing("NA-1", "bad", "cylinder connected", fact="change"),
        narrowing("NA-2", "CAL-1", "as-found curve", fact="CAL-1"),
        narrowing("NA-3", "bad", "none", undoes="NA-1"),
    ],
    "calibrations": [FOUND_WRONG | {"id": "CAL-0", "at": "2031-03-01T08:00", "result": "pass"}, FOUND_WRONG | _CURVE],
    "fill_lots": [{"kind": "fill lot", "id": "GAS-9", "cylinders": ["CY-2"], "certificate": "G-9",
                   "oxygen_ppm": "20"}],
    "shipments": [{"kind": "shipment", "id": "SH-1", "frame": "X1", "at": "2031-03-13T08:00", "customer": "CU-1"}],
    "sleeves": [{"kind": "rod sleeve", "id": "S-30", "lot": "FL-9", "filler_class": "ERTi-2", "rod_mm": "1.2"}],
    "pieces": [{"kind": "piece", "id": "PC-1", "frame": "X1", "member": "LEG", "heat": heat}
               for heat in ("H-1", "H-2")],
    "windows": [{"kind": "window", "id": "W-1", "what": "fixture at bench", "subject": "F-1", "bench": "NORTH",
                 "since": "2031-03-10T08:00"} | more for more in ({}, {"until": "2031-03-10T12:10"})],
    "permissions": [{"kind": "permission", "id": "PE-1", "permits": "release", "frame": "X2", "known_at": 1,
                     "signatures": _SIGNED}],
    "nonconformities": [{"kind": "nonconformity", "id": "NC-9", "title": "bad bead", "findings": [BAD_BEAD],
                         "held": ["X1/A2#1"], "signatures": _SIGNED}],
    "concessions": [{"kind": "concession", "id": "CO-9", "frames": ["X1"], "count": 1, "reason": "small",
                     "signatures": [*_SIGNED, _SIGNED[0] | {"person": "OWN", "role": "owner"}]}],
    "decisions": [{"kind": "decision", "id": f"DE-{frame}", "choice": "use as is", "reason": "small",
                   "findings": [f"{frame}/A1#1|purge-o2"], "concession": "CO-9", "signatures": _SIGNED}
                  for frame in ("X1", "X2")],
    "benches": [{"kind": "bench", "id": "WEST", "title": "west bench", "torch_line": "N-T", "purge_line": "W-P",
                 "machine": "PS", "devices": ["PAD"]}],
    "qualifications": [
        {"kind": "qualification", "id": "Q-CEL", "welder": "CEL", "procedures": ["TT"], "thickness_mm": [0.5, 2.0],
         "diameter_mm": [15.0, 60.0], "issued": "2030-08-31", "standard": "shop scheme", "continuity": "used"},
    ],
}  # fmt: skip
FIGURES = {"cross_check": "1", "purge_bead_every": "none"}


def stages() -> list[Registers]:
    """The registers as papers are told, one after the other; what nothing was told of stays the very same."""
    found = [SOME, ALL]
    for room, lines in PAPERS.items():
        for count in range(1, len(lines) + 1):
            told_of = getattr(registers_with([*LINES, *lines[:count]], {}), room)
            found.append(replace(found[-1], **{room: told_of}))
    revised = SOME.procedures["TT", "A"].model_copy(update={"revision": "C", "valid_from": date(2031, 3, 5)})
    found.append(replace(found[-1], procedures={**found[-1].procedures, ("TT", "C"): revised}))
    return [*found, replace(found[-1], acceptance=registers_with(LINES, FIGURES).acceptance)]


STAGES = stages()


def told(jitter: Sequence[int]) -> list[Sent]:
    """All deliveries of two days of work, their sendings each late by a little more or less."""
    every = [*OF_X1, *OF_X2, *sent(MENDING)]
    return [_late(each, number, jitter[number % len(jitter)]) for number, each in enumerate(every, 1)]


def _late(each: Sent, number: int, by_ms: int) -> Sent:
    received_ms = each.recorded.received_ms + by_ms
    entry = each.recorded.entry.model_copy(update={"seq": number, "id": each.recorded.entry.id})
    recorded = each.recorded._replace(received_ms=received_ms, entry=entry)
    return Sent(recorded, each.clock._replace(received_ms=received_ms, seq=number))


def placed(every: Sequence[Sent]) -> list[Sent]:
    return [each._replace(recorded=each.recorded._replace(position=at)) for at, each in enumerate(every, 1)]


def known(registers: Registers, lines: Sequence[Sent], position: int) -> Known:
    shared, passes, photos = (
        [each.recorded for each in lines if each.recorded.entry.kind in kinds]
        for kinds in (SHARED, ("pass",), ("photo",))
    )
    return Known(registers, shared, [each.clock for each in lines], passes, photos, known_at=position)


def carried(
    every: Sequence[Sent], cuts: Sequence[int], papers: Sequence[int] = (0, 1, 1)
) -> Iterator[tuple[Tables, Known]]:
    """Carry the tables on from cut to cut; each with all that is known there, and with so many papers told."""
    tables = Tables(Known(SOME), None)
    for number, until in enumerate(sorted({*cuts, len(every)})):
        registers = STAGES[papers[number % len(papers)]]
        new = every[tables.known_at : until]
        settled = tables.settled(known(registers, new, until))
        again = [
            each
            for each in every[: tables.known_at]
            if (each.recorded.entry.device, each.recorded.entry.boot) in settled.boots
            or each.recorded.entry.id in settled.entries
        ]
        more = replace(known(registers, [*again, *new], until), clocks=[each.clock for each in new])
        tables = Tables(more, None, tables, settled)
        yield tables, known(registers, every[:until], until)


def lives(tables: Tables) -> list[dict[Group, list[Any]]]:
    """Since when joints are in the field, and those that were, by design and joint."""
    found = field_lives(tables)
    return [{group: sorted(of_one) for group, of_one in part.items() if of_one} for part in (found.out, found.ended)]


def answers(tables: Tables, everything: Known, every: Sequence[Sent]) -> dict[str, Any]:
    """Everything that is asked of the tables."""
    shop = Shop(everything, tables=tables)
    entries = [each.recorded for each in every[: everything.known_at]]
    frames = {packet.frame: packet for packet in everything.registers.packets.values()}
    of = {name: [each for each in entries if getattr(each.entry, "frame", None) == name] for name in frames}
    uses = tables.uses
    return {
        "shared": shop.shared(),
        "frames": [shop.frame(packet, of[name]) for name, packet in frames.items()],
        "sets": list(shop.suspect_sets()),
        "in short": list(sets_in_short(tables)),
        "lives": lives(tables),
        "uses": [uses.all, uses.by_line, uses.by_welder, uses.by_instrument, uses.by_frame, uses.by_sleeve],
        "gas": [tables.gas.naming("cylinder", "CY-2"), tables.beads, tables.checks, tables.coupons],
        "now": [tables.end_ms, [tables.uses.made_again(use) for use in uses.all]],
    }


_ALL_TOLD = len(told([0]))


@settings(max_examples=25, deadline=None)
@example(list(range(_ALL_TOLD)), [0], list(range(_ALL_TOLD - len(STAGES) + 1, _ALL_TOLD)), list(range(len(STAGES))), 4)
@example(list(range(_ALL_TOLD)), [0], list(range(_ALL_TOLD - 12, _ALL_TOLD)), [3], 2000)
@given(st.permutations(range(_ALL_TOLD)), st.lists(st.integers(0, 4000), min_size=1, max_size=9),
       st.lists(st.integers(1, 60), max_size=6), st.lists(st.integers(0, len(STAGES) - 1), min_size=1),
       st.sampled_from([4, 2000]))  # fmt: skip
def test_carried_on_is_made_from_nothing(
    order: list[int], jitter: list[int], cuts: list[int], papers: list[int], many: int
):
    """Entries of two frames and all they share, corrections and what takes them back, clocks that settle late, papers
    told and never told, few or many of a kind: after each stretch all occasions and sets are as made from nothing."""
    every = placed([told(jitter)[each] for each in order])
    with few_are_many(many):
        for tables, everything in carried(every, [each for each in cuts if each < len(every)], papers):
            found = answers(tables, everything, every)
            for name, wanted in answers(Tables(everything, None), everything, every).items():
                assert found[name] == wanted, name


def test_who_forgets_a_boot_is_found_out(monkeypatch: pytest.MonkeyPatch):
    """Control: where nobody is told which boots settled anew, the times of what was told before are wrong."""
    monkeypatch.setattr(Clocks, "with_more", lambda clocks, pairs: (with_more(clocks, pairs)[0], set()))
    with pytest.raises((AssertionError, NotFiled)):
        test_carried_on_is_made_from_nothing.hypothesis.inner_test(  # type: ignore[attr-defined]
            list(range(len(told([0])))), [3000, 2000, 1000, 0], [10, 20, 30], [0, 1, 1], 2000
        )


with_more = Clocks.with_more


def test_a_state_nobody_looks_at_is_let_go():
    """Nothing in a state names the state itself, so that it goes with its last reader and waits for no collector."""
    every = placed(told([0]))
    gc.disable()
    try:
        states = carried(every, [20, 40])
        held = [(weakref.ref(tables), answers(tables, known_then, every)) for tables, known_then in states]
        assert [each() is None for each, _ in held[:-1]] == [True, True]
    finally:
        gc.enable()


def test_what_does_not_stand_there_cannot_be_taken_out():
    """Taking out what was never filed is refused, so that a wrong carrying is noticed and not hidden."""
    assert in_order_again([1, 2, 3], [2], [4], lambda each: (each,)) == [1, 3, 4]
    with pytest.raises(NotFiled):
        in_order_again([1, 3], [2], [], lambda each: (each,))
