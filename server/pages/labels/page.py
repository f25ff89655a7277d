"""What the papers show: a frame's joints in the order of the work with their hold points; sleeves and cylinders."""

from dataclasses import dataclass

from server.facts.design import Design, GeometryCheck, Joint
from server.facts.orders import Packet
from server.facts.registers import Registers


@dataclass(frozen=True, slots=True)
class TravellerJoint:
    """One line of the traveller; `code` is what its QR code holds, `hold` what would hide the seam."""

    joint: Joint
    code: str
    hold: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Traveller:
    """The traveller of one frame."""

    frame: str
    design: Design
    size: str
    issued_ms: int
    joints: tuple[TravellerJoint, ...]
    checks: tuple[GeometryCheck, ...]


@dataclass(frozen=True, slots=True)
class Label:
    """One label: what its code holds, and two lines beside it."""

    code: str
    title: str
    words: str


@dataclass(frozen=True, slots=True)
class LabelSheet:
    """Labels of rod sleeves, newest first, and of cylinders by fill lot."""

    sleeves: tuple[Label, ...]
    cylinders: tuple[Label, ...]


def traveller(packet: Packet, design: Design) -> Traveller:
    """Lay out a frame's traveller in the design's usual order."""
    place = {name: at for at, name in enumerate(design.order)}
    joints = sorted(design.joints, key=lambda joint: place.get(joint.id, len(place)))
    lines = tuple(TravellerJoint(joint, f"{packet.frame}/{joint.id}", _hides(design, joint)) for joint in joints)
    return Traveller(packet.frame, design, packet.size, packet.issued, lines, design.geometry)


def label_sheet(registers: Registers) -> LabelSheet:
    """Give a label for every sleeve and every cylinder on file."""
    sleeves = sorted(registers.sleeves.values(), key=lambda each: (str(each.received), each.id), reverse=True)
    lots = sorted(registers.fill_lots.values(), key=lambda lot: lot.id, reverse=True)
    return LabelSheet(
        sleeves=tuple(
            Label(each.id, each.id, f"{each.filler_class} · {each.rod_mm:g} mm · lot {each.lot}") for each in sleeves
        ),
        cylinders=tuple(Label(name, name, f"fill lot {lot.id}") for lot in lots for name in lot.cylinders),
    )


def _hides(design: Design, joint: Joint) -> tuple[str, ...]:
    return tuple(
        f"before {cover.by} is tacked: {cover.reason}" if cover.reason else f"before {cover.by} is tacked"
        for cover in design.covers
        if cover.seam == joint.id
    )
