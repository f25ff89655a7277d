"""The tables that rest on the registers alone, each made when it is first asked for and kept while they stay."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import date
from functools import cached_property
from operator import attrgetter
from typing import TypeVar

from server.facts.deciding import Permission
from server.facts.design import Joint
from server.facts.equipment import Acceptance, Calibration
from server.facts.materials import Analysis, FillLot, Piece
from server.facts.orders import Packet
from server.facts.registers import Registers
from server.occasions.accepted import Accepted
from server.occasions.doubts import Doubts
from server.occasions.drawings import Drawing
from server.occasions.gas import lots_by_cylinder
from server.occasions.revisions import Revisions

OfAFrame = TypeVar("OfAFrame", Piece, Permission)
_RESTS_ON = {
    "accepted": "acceptance", "revisions": "procedures", "doubts": "instruments", "drawings": "designs",
    "packet_of": "packets", "torch_lines": "benches", "purge_lines": "benches", "shipped": "shipments",
    "pieces_of": "pieces", "permissions_of": "permissions", "lot_of": "fill_lots", "calibrations_of": "calibrations",
    "calibrations_told": "calibrations", "analysis_of": "analyses",
}  # fmt: skip


class RegisterTables:
    """What the registers say, looked up by what is asked; `on` holds everything against one day."""

    def __init__(self, registers: Registers, on: date | None, before: "RegisterTables | None" = None) -> None:
        """Keep what was made of registers of before in which nothing changed since."""
        self.registers = registers
        self._on = on
        for name, told in _RESTS_ON.items() if before else ():
            if before and name in before.__dict__ and getattr(before.registers, told) is getattr(registers, told):
                self.__dict__[name] = before.__dict__[name]

    @cached_property
    def accepted(self) -> Accepted:
        """The acceptance figures by day."""
        return Accepted(self.registers.acceptance.values(), self._on.toordinal() if self._on else None)

    @cached_property
    def revisions(self) -> Revisions:
        """The procedures by day."""
        return Revisions(self.registers.procedures.values(), self._on.toordinal() if self._on else None)

    @cached_property
    def doubts(self) -> Doubts:
        """The uncertainties on file."""
        return Doubts(self.registers.instruments.values())

    @cached_property
    def drawings(self) -> Mapping[str, Drawing]:
        """The drawings by design."""
        return {design.name: Drawing(design) for design in self.registers.designs.values()}

    @cached_property
    def packet_of(self) -> Mapping[str, Packet]:
        """The packet of each frame."""
        return {packet.frame: packet for packet in self.registers.packets.values()}

    @cached_property
    def torch_lines(self) -> frozenset[str]:
        """The lines that feed a torch."""
        return frozenset(bench.torch_line for bench in self.registers.benches.values())

    @cached_property
    def purge_lines(self) -> frozenset[str]:
        """The lines that purge."""
        return frozenset(bench.purge_line for bench in self.registers.benches.values())

    @cached_property
    def shipped(self) -> frozenset[str]:
        """Every frame that was ever sent."""
        return frozenset(shipment.frame for shipment in self.registers.shipments.values())

    @cached_property
    def pieces_of(self) -> Mapping[str, list[Piece]]:
        """The pieces each frame is built of."""
        return _by_frame(self.registers.pieces.values())

    @cached_property
    def permissions_of(self) -> Mapping[str, list[Permission]]:
        """What was permitted of each frame."""
        return _by_frame(self.registers.permissions.values())

    @cached_property
    def lot_of(self) -> Mapping[str, FillLot]:
        """For each cylinder the lot that names it."""
        return lots_by_cylinder(self.registers.fill_lots)

    @cached_property
    def calibrations_of(self) -> Mapping[str, list[Calibration]]:
        """The calibrations of each instrument, in the order of time."""
        found: dict[str, list[Calibration]] = {}
        for each in sorted(self.registers.calibrations.values(), key=attrgetter("at")):
            found.setdefault(each.instrument, []).append(each)
        return found

    @cached_property
    def calibrations_told(self) -> Mapping[str, int]:
        """In which order the calibrations were told."""
        return {each: place for place, each in enumerate(self.registers.calibrations)}

    @cached_property
    def analysis_of(self) -> Mapping[str, Analysis]:
        """The last analysis told of each cylinder."""
        return {each.cylinder: each for each in self.registers.analyses.values()}

    def at(self, day: int) -> Mapping[str, Acceptance]:
        """Give the acceptance figures of a day."""
        return self.accepted.at(day)

    def drawing_of(self, frame: str) -> Drawing | None:
        """Give the drawing a frame is built to."""
        packet = self.packet_of.get(frame)
        return self.drawings.get(packet.design) if packet else None

    def joint_of(self, frame: str, joint: str) -> Joint | None:
        """Give a joint of a frame as its drawing has it."""
        drawing = self.drawing_of(frame)
        return drawing.joints.get(joint) if drawing else None


def _by_frame(nouns: Iterable[OfAFrame]) -> dict[str, list[OfAFrame]]:
    found: dict[str, list[OfAFrame]] = defaultdict(list)
    for noun in nouns:
        found[noun.frame].append(noun)
    return found
