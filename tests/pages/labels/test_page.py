"""What the papers show."""

from datetime import date
from pathlib import Path

from server.facts.materials import FillLot, RodSleeve
from server.facts.orders import Packet
from server.facts.registers import Registers
from server.pages.labels.page import label_sheet, traveller
from server.plan.reading import read_design

DESIGN = Path(__file__).resolve().parents[3] / "demo_data" / "designs" / "lst.toml"


def test_a_traveller_holds_every_joint_in_the_order_of_the_work() -> None:
    """All joints stand on it, the first of the design's order first, each with the code that opens it."""
    design = read_design(DESIGN.read_text(encoding="utf-8"), "lst")
    packet = Packet(id="A-1", frame="A-1", design="LST", size="56", issued="2026-01-01T00:00:00Z")  # type: ignore[arg-type]
    found = traveller(packet, design)
    assert {line.joint.id for line in found.joints} == {joint.id for joint in design.joints}
    assert [line.code for line in found.joints[:3]] == ["A-1/J01", "A-1/J02", "A-1/J04"]


def test_a_hold_point_says_before_what_it_must_be_released() -> None:
    """A seam that another tube hides names that tube's joint; one that stays in sight has no hold point."""
    design = read_design(DESIGN.read_text(encoding="utf-8"), "lst")
    packet = Packet(id="A-1", frame="A-1", design="LST", size="56", issued="2026-01-01T00:00:00Z")  # type: ignore[arg-type]
    holds = {line.joint.id: line.hold for line in traveller(packet, design).joints}
    assert holds["J01"][0] == "before J04 is tacked: the down tube lies over it"
    assert holds["J05"] == ()


def test_labels_hold_the_plain_names() -> None:
    """A sleeve's label says class, diameter and lot, a cylinder's its fill lot; the code is the name itself."""
    sleeve = RodSleeve(id="S-1", lot="L", filler_class="ERTi-9", rod_mm="0.9", received=date(2026, 1, 1))  # type: ignore[arg-type]
    found = label_sheet(Registers(sleeves={"S-1": sleeve}, fill_lots={"G": FillLot(id="G", cylinders=("C1", "C2"))}))
    assert [(label.code, label.words) for label in found.sleeves] == [("S-1", "ERTi-9 · 0.9 mm · lot L")]
    assert [(label.code, label.words) for label in found.cylinders] == [("C1", "fill lot G"), ("C2", "fill lot G")]
