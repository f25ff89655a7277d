"""What the machine's counters say about one pass: travel and heat input, with their doubts."""

from collections.abc import Mapping
from math import hypot

from server.facts.equipment import Acceptance
from server.facts.figure import Figure
from server.physics.arc_energy import arc_energy_j_per_mm, arc_energy_of_bead_j_per_mm

_S_PER_MIN = 60.0
_J_PER_KJ = 1000.0
# Made for every pass; past the named fields' own checking they cost half.
_new = tuple.__new__


def travel_of(figures: Mapping[str, Figure], bead_mm: float, accept: Mapping[str, Acceptance]) -> Figure | None:
    """Give the travel speed [mm/min] of a bead from the arc's seconds; none without them."""
    arc = figures.get("arc_on")
    if arc is None or arc.value <= 0:
        return None
    travel = bead_mm * _S_PER_MIN / arc.value
    doubt = _doubt(travel, _share(arc), _length_share(bead_mm, accept))
    return _new(Figure, (travel, doubt, "computed", arc.by, arc.entry))


def heat_input_of(
    figures: Mapping[str, Figure], bead_mm: float, k: float, accept: Mapping[str, Acceptance]
) -> Figure | None:
    """Give the heat input [kJ/mm]: from a trace's joules where there is one, else from mean amps, volts and travel."""
    length = _length_share(bead_mm, accept)
    energy = figures.get("arc_energy")
    if energy is not None:
        heat = k * arc_energy_of_bead_j_per_mm(energy.value, bead_mm) / _J_PER_KJ
        return Figure(heat, _doubt(heat, _share(energy), length), "computed", energy.by, energy.entry)
    amps, volts, arc = figures.get("mean_current"), figures.get("volts"), figures.get("arc_on")
    if amps is None or volts is None or arc is None or arc.value <= 0:
        return None
    travel = bead_mm * _S_PER_MIN / arc.value
    heat = k * arc_energy_j_per_mm(volts.value, amps.value, travel) / _J_PER_KJ
    doubt = _doubt(heat, _share(amps), _share(volts), _share(arc), length)
    return _new(Figure, (heat, doubt, "computed", amps.by, amps.entry))


def _share(figure: Figure) -> float | None:
    if figure.u is None or figure.value == 0:
        return None
    return figure.u / figure.value


def _length_share(bead_mm: float, accept: Mapping[str, Acceptance]) -> float | None:
    doubt = accept.get("seam_uncertainty")
    return None if doubt is None else doubt.value / bead_mm


def _doubt(value: float, *shares: float | None) -> float | None:
    known = [share for share in shares if share is not None]
    return value * hypot(*known) if len(known) == len(shares) else None
