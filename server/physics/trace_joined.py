"""Several beads of a trace taken together as one."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce
from operator import or_

from server.physics.errors import UnusableInput
from server.physics.trace_found import ArcSpan, TraceFault


def joined_beads(beads: Sequence[ArcSpan]) -> ArcSpan:
    """The beads of one pass as a single span: energies and times added, means over the arc time of all.

    Equation: E = Σ Ek, T = Σ Tk, I = Σ Ik · Tk / T, U = Σ Uk · Tk / T
    Inputs: beads of one trace, one or more.
    Result: an ArcSpan from the first start to the last end [J, s, A, V, W].
    Example:
        >>> one = ArcSpan(0.0, 2.0, 1000.0, 2.0, 0.0, 50.0, 10.0, 600.0, TraceFault.NONE)
        >>> two = ArcSpan(5.0, 6.0, 800.0, 1.0, 0.1, 80.0, 10.0, 900.0, TraceFault.GAP)
        >>> both = joined_beads([one, two])
        >>> both.energy_j, both.arc_s, both.mean_amps
        (1800.0, 3.0, 60.0)

    Range and traps: What was missed in one bead is bounded by the highest power of all of them. A fault of one is a
        fault of the whole.
    Source: energy is additive.
    """
    if not beads:
        raise UnusableInput("beads", "none", "one bead or more", "Choose the beads that belong to the pass.")
    arc_s = sum(bead.arc_s for bead in beads)
    per_second = 1.0 / arc_s if arc_s else 0.0
    return ArcSpan(
        start_s=min(bead.start_s for bead in beads),
        end_s=max(bead.end_s for bead in beads),
        energy_j=sum(bead.energy_j for bead in beads),
        arc_s=arc_s,
        missing_s=sum(bead.missing_s for bead in beads),
        mean_amps=sum(bead.mean_amps * bead.arc_s for bead in beads) * per_second,
        mean_volts=sum(bead.mean_volts * bead.arc_s for bead in beads) * per_second,
        peak_w=max(bead.peak_w for bead in beads),
        faults=reduce(or_, (bead.faults for bead in beads), TraceFault.NONE),
    )
