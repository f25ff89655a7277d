"""A bead on a thin tube or sheet as the cooling formulas want it, and whether they may be asked about it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from server.physics.cooling_field import LaidBead
from server.physics.cooling_wall import transition_wall_mm
from server.physics.errors import UnusableInput
from server.physics.inputs import between, positive


@dataclass(frozen=True, slots=True)
class TubeWeld:
    """One bead: heat input [J/mm], travel [mm/min], its length, the wall, the way round [mm], and metal at first [°C].

    The heat input is what reaches the metal, so with the thermal efficiency in it. `around_mm` is None for a flat seam.
    """

    heat_input_j_per_mm: float
    travel_mm_per_min: float
    bead_mm: float
    wall_mm: float
    around_mm: float | None = None
    start_c: float = 20.0

    def __post_init__(self) -> None:
        between("heat_input_j_per_mm", self.heat_input_j_per_mm, 0.1, 5000.0)
        positive("travel_mm_per_min", self.travel_mm_per_min, "A tack has no travel, and no hold time of this kind.")
        positive("bead_mm", self.bead_mm)
        positive("wall_mm", self.wall_mm)
        between("start_c", self.start_c, -50.0, 1500.0)
        if self.around_mm is not None and self.bead_mm > positive("around_mm", self.around_mm) * 1.0001:
            expected = f"at most once round, {self.around_mm:g} mm"
            raise UnusableInput("bead_mm", self.bead_mm, expected, "Treat a second lap as a bead of its own.")

    def laid(self) -> LaidBead:
        """The bead as laid from 0 along the seam, begun at time 0."""
        return LaidBead(0.0, self.bead_mm, 0.0, self.travel_mm_per_min / 60.0, self.heat_input_j_per_mm)

    def limit_rise_k(self, limit_c: float) -> float:
        """How far a limit lies above the metal at first, refused when it does not."""
        if between("limit_c", limit_c, -50.0, 1500.0) <= self.start_c:
            expected = f"more than the metal at first, {self.start_c:g} °C"
            raise UnusableInput("limit_c", limit_c, expected, "Let the metal cool before, or correct the limit.")
        return limit_c - self.start_c


def meeting_wall_mm(walls_mm: Sequence[float]) -> float:
    """The wall that carries heat away from a seam where several sheets meet: half of all their walls together.

    Equation: d = ½ Σ di
    Inputs: walls_mm, the wall of each sheet that leads away from the seam: two for a butt, three for a T [mm].
    Result: wall [mm] for a TubeWeld.
    Example:
        >>> round(meeting_wall_mm([0.9, 0.9]), 2), round(meeting_wall_mm([0.9, 0.9, 0.9]), 2)
        (0.9, 1.35)

    Range and traps: A tube landed on another counts three: two ways along the one, one up the other. Thick parts beside
        thin ones take more than their share at first.
    Source: heat balance; a T fillet counts three thicknesses in open preheat guidance.
    """
    if len(walls_mm) < 2:
        raise UnusableInput(
            "walls_mm", walls_mm, "two walls or more", "Name every sheet that leads away from the seam."
        )
    return 0.5 * sum(positive("walls_mm", wall_mm) for wall_mm in walls_mm)


def doubts_of(weld: TubeWeld, limit_c: float) -> tuple[str, ...]:
    """Why the cooling formulas should not be trusted for a weld, in words; empty when nothing speaks against them.

    Equation: d < ½ of transition_wall_mm; a bead of 10 mm or more
    Inputs: weld; limit_c [°C].
    Result: sentences.
    Example:
        >>> doubts_of(TubeWeld(100.0, 120.0, 25.0, wall_mm=0.9), limit_c=427.0)
        ()

    Range and traps: Also outside the formulas, and not seen here: seams near a tube's end or a mitre's tip, and lugs.
    Source: validity of the thin-plate solution; the 10 mm are our own choice.
    """
    weld.limit_rise_k(limit_c)
    doubts = []
    if weld.bead_mm < 10.0:
        doubts.append("The bead is hardly longer than its pool, which the figure leaves out.")
    if weld.wall_mm >= 0.5 * transition_wall_mm(weld.heat_input_j_per_mm, limit_c, weld.start_c):
        doubts.append("The wall is too thick to be hot through: the real hold is shorter.")
    return tuple(doubts)
