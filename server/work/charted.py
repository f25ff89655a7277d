"""What can be charted of a pass: a value it tells or its machine's counts give, and the limit it was welded under."""

from collections.abc import Mapping
from typing import NamedTuple

from server.facts.design import Joint
from server.facts.figure import Figure
from server.facts.limit import Limit
from server.facts.measured import Measured
from server.facts.quantities import QUANTITIES
from server.facts.registers import Registers
from server.facts.welding import Pass
from server.occasions.energy import heat_input_of, travel_of
from server.occasions.revisions import Revisions


class Charted(NamedTuple):
    """One quantity: its name, its unit, the question that is asked of it, and the limit that question reads."""

    words: str
    unit: str
    question: str
    limit: str
    least: float | None = 0.0
    """Below it no value of this can be; none where there is no such bound in sight."""


def _told(name: str, question: str, words: str = "") -> Charted:
    return Charted(words or QUANTITIES[name].words, QUANTITIES[name].unit, question, name)


CHARTED: dict[str, Charted] = {
    "oxygen": _told("oxygen", "purge-o2"),
    "heat_input": Charted("heat input", "kJ/mm", "heat-input", "heat_input"),
    "post_flow": _told("post_flow", "post-flow", "hold time: torch gas after the arc"),
    "mean_current": _told("mean_current", "mean-current"),
    "volts": _told("volts", "volts"),
    "travel": Charted("travel speed", "mm/min", "travel", "travel"),
    "arc_on": _told("arc_on", "travel"),
    "interpass": _told("interpass", "interpass")._replace(least=None),
    "purge_flow": _told("purge_flow", "purge-flow"),
    "torch_flow": _told("torch_flow", "torch-flow"),
}
_COUNTED = ("mean_current", "volts", "arc_on", "arc_energy")
_QUARTERS = 4


class Drawn:
    """The joints of all frames as drawn, and the limits that held for a pass on its day."""

    def __init__(self, registers: Registers) -> None:
        self._joints = {name: {joint.id: joint for joint in it.joints} for name, it in registers.designs.items()}
        self._design_of = {packet.frame: packet.design for packet in registers.packets.values()}
        self._revisions = Revisions(registers.procedures.values(), None)

    def limit(self, it: Pass, day: int, name: str) -> Limit | None:
        """Give the limit of that name that held for a pass on its day; none where its procedure had none."""
        joint = self._joint(it)
        if joint is None:
            return None
        own = self._revisions.in_force(joint.procedure, day)
        held = self._revisions.repair_for(joint, day) if it.run == "repair" else own
        return self._revisions.limits(held, own.joint_kind if own else "", it.run).get(name)

    def under(self, it: Pass) -> str:
        """Name what a pass was made as: the procedure of its joint, and the run."""
        joint = self._joint(it)
        return f"{joint.procedure} {it.run}" if joint else it.run

    def value(self, it: Pass, values: Mapping[str, Measured], quantity: str, limit: Limit | None) -> float | None:
        """Give a quantity of a pass: as told, or reckoned from what its machine counted over the seam as drawn."""
        if (told := values.get(quantity)) is not None:
            return told.value
        joint = self._joint(it)
        if joint is None or quantity not in ("heat_input", "travel"):
            return None
        bead_mm = joint.seam_mm * len(it.quarters) / _QUARTERS
        counted = {name: _figure(values[name], it.id) for name in _COUNTED if name in values}
        k = (limit.k if limit else None) or 1.0
        found = travel_of(counted, bead_mm, {}) if quantity == "travel" else heat_input_of(counted, bead_mm, k, {})
        return found.value if found else None

    def _joint(self, it: Pass) -> Joint | None:
        return self._joints.get(self._design_of.get(it.frame, ""), {}).get(it.joint)


def _figure(measured: Measured, entry: str) -> Figure:
    return Figure(measured.value, None, measured.how, measured.by, entry)
