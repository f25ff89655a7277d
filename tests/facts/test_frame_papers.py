"""The papers of one frame are those a walk through all papers finds, and are gathered once for what is known."""

from dataclasses import replace
from typing import Any, TypeVar, cast

import pytest

from server.facts.claim import Claim
from server.facts.deciding import Concession, Decision, Nonconformity, Permission
from server.facts.frame_papers import (
    claims_of,
    concessions_of,
    decisions_on,
    frames_of_customer,
    last_decided,
    nonconformities_of,
    ownerships_of,
    packets_of_design,
    permissions_of,
    shipments_of,
    shipped_frames,
)
from server.facts.noun import Noun
from server.facts.orders import Ownership, Packet, Shipment
from server.facts.registers import Registers

Paper = TypeVar("Paper", bound=Noun)


def told(noun: type[Paper], **words: Any) -> Paper:
    """Make a paper with what is asked of it alone."""
    return cast(Paper, noun.model_construct(**words))


FRAMES = ("F-1", "F-10", "F-2", "F-9")


def packet(frame: str, issued: int, design: str = "DUNE", customer: str | None = None) -> Packet:
    return told(Packet, id=frame, frame=frame, issued=issued, design=design, customer=customer)


def decision(name: str, frame: str | None, *findings: str) -> Decision:
    return told(Decision, id=name, frame=frame, findings=findings)


@pytest.fixture
def registers() -> Registers:
    """Papers of three frames, two of whose serials begin alike, and of none."""
    sent = [told(Shipment, id=f"S-{at}", frame=each, customer="C-2") for at, each in enumerate(("F-2", "F-1"))]
    papers = [decision("D-3", "F-1"), decision("D-1", None, "F-1/J01#1|gap", "F-2/J01#1|gap"),
              decision("D-2", None, "N-P|bead", "F-10/J01#1|gap"), decision("D-4", None, "F-1/J01#1|gap")]  # fmt: skip
    nonconformities = [
        told(Nonconformity, id="NCR-1", findings=("F-1/J01#1|gap",), held=()),
        told(Nonconformity, id="NCR-2", findings=("N-P|bead",), held=("F-10/J02",)),
    ]
    return Registers(
        packets={each.frame: each for each in (packet("F-2", 9, customer="C-1"), packet("F-1", 3), packet("F-10", 3))},
        shipments={each.id: each for each in sent},
        ownerships={"O-1": told(Ownership, id="O-1", frame="F-10", customer="C-1", since=None)},
        decisions={each.id: each for each in papers},
        nonconformities={each.id: each for each in nonconformities},
        permissions={"P-1": told(Permission, id="P-1", frame="F-1")},
        concessions={"K-1": told(Concession, id="K-1", frames=("F-1", "F-2"))},
        claims={"W-1": told(Claim, id="W-1", serial="F-10")},
    )


@pytest.mark.parametrize("frame", FRAMES)
def test_each_paper_that_names_the_frame_and_no_other(registers: Registers, frame: str):
    """A serial that another begins with gets none of the other's papers; an unknown one gets none."""

    def names(subjects: tuple[str, ...]) -> bool:
        return any(each.startswith(f"{frame}/") for each in subjects)

    assert permissions_of(registers, frame) == tuple(it for it in registers.permissions.values() if it.frame == frame)
    assert shipments_of(registers, frame) == tuple(it for it in registers.shipments.values() if it.frame == frame)
    assert ownerships_of(registers, frame) == tuple(it for it in registers.ownerships.values() if it.frame == frame)
    assert concessions_of(registers, frame) == tuple(it for it in registers.concessions.values() if frame in it.frames)
    assert claims_of(registers, frame) == tuple(it for it in registers.claims.values() if it.serial == frame)
    assert nonconformities_of(registers, frame) == tuple(
        it for it in registers.nonconformities.values() if names((*it.findings, *it.held))
    )
    assert decisions_on(registers, frame, ()) == tuple(
        it for it in registers.decisions.values() if it.frame == frame or names(it.findings)
    )


def test_a_decision_on_what_frames_share_is_found_by_its_finding(registers: Registers):
    """A key without a frame's name leads to its decision, and all come in the order they were told."""
    assert [each.id for each in decisions_on(registers, "F-1", ["N-P|bead"])] == ["D-3", "D-1", "D-2", "D-4"]


def test_the_last_told_decides(registers: Registers):
    """Of two decisions on one finding the later one is the last."""
    assert last_decided(registers)["F-1/J01#1|gap"].id == "D-4"
    assert last_decided(registers)["F-2/J01#1|gap"].id == "D-1"


def test_packets_stand_by_their_issue(registers: Registers):
    """The earliest first, of the same moment by serial; another design has none."""
    assert [each.frame for each in packets_of_design(registers, "DUNE")] == ["F-1", "F-10", "F-2"]
    assert packets_of_design(registers, "HEATH") == ()


def test_frames_of_a_customer(registers: Registers):
    """Packed for them, sent to them or told to be theirs; each once, by serial."""
    assert frames_of_customer(registers, "C-1") == ("F-10", "F-2")
    assert frames_of_customer(registers, "C-2") == ("F-1", "F-2")
    assert frames_of_customer(registers, "C-9") == ()


def test_what_is_told_later_is_gathered_anew(registers: Registers):
    """Registers carried on know what came since; those of before answer as before."""
    assert shipped_frames(registers) == {"F-1", "F-2"}
    more = {**registers.shipments, "S-9": told(Shipment, id="S-9", frame="F-10", customer="C-1")}
    later = replace(registers, shipments=more, looked_up={})
    assert shipped_frames(later) == {"F-1", "F-2", "F-10"}
    assert shipped_frames(registers) == {"F-1", "F-2"}
