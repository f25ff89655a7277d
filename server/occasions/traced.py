"""What a machine's recording adds to the figures of its pass, with the doubt it was given for its energy."""

from collections.abc import Mapping

from server.facts.equipment import Acceptance
from server.facts.figure import Figure
from server.facts.supplies import Trace
from server.occasions.doubts import Doubts


def with_trace(
    figures: Mapping[str, Figure], trace: Trace, doubts: Doubts, accept: Mapping[str, Acceptance]
) -> dict[str, Figure]:
    """Give the figures with those of the recording; its own doubt counts where the instrument has none on file."""
    found = {**figures, **doubts.figures(trace.values, trace.id, accept)}
    energy = found.get("arc_energy")
    if energy is not None and energy.u is None and trace.energy_doubt_j is not None:
        found["arc_energy"] = energy._replace(u=trace.energy_doubt_j)
    return found
