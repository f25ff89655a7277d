"""The steps between samples: which can be summed, how long the others were, and what was wrong with them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from server.physics.trace_found import TraceFault

if TYPE_CHECKING:
    from server.physics.arrays import Bytes, Floats, Places, Truths


@dataclass(frozen=True, slots=True)
class StepLimits:
    """The usual step, the longest that is still summed, and the longest gap a bead may hold [s]."""

    usual_s: float
    longest_s: float
    longest_gap_s: float


@dataclass(frozen=True, slots=True)
class Steps:
    """Lengths to sum over [s]; beside them the lengths missed and what was wrong, None where nothing was."""

    summed_s: Floats
    missed_s: Floats | None = None
    fault: Bytes | None = None


def weigh_steps(length_s: Floats, seen: Truths | None, limits: StepLimits) -> Steps:
    """Split steps into those to sum and those missed; `seen` is None when every sample is a number."""
    import numpy as np

    if seen is None and length_s.size and length_s.min() > 0.0 and length_s.max() <= limits.longest_s:
        return Steps(length_s)
    fault = _faults(length_s, np.ones(length_s.size + 1, np.bool_) if seen is None else seen, limits)
    unfit = fault != 0
    # How long a step really was cannot be read from a clock that ran back or is not a number: one usual step.
    missed_s = np.where(length_s >= 0.0, length_s, limits.usual_s)
    return Steps(np.where(unfit, 0.0, length_s), np.where(unfit, missed_s, 0.0), fault)


def _faults(length_s: Floats, seen: Truths, limits: StepLimits) -> Bytes:
    import numpy as np

    fault = np.zeros(length_s.size, np.uint8)
    fault[~(seen[1:] & seen[:-1]) | np.isnan(length_s)] |= np.uint8(TraceFault.NOT_A_NUMBER)
    fault[length_s > limits.longest_s] |= np.uint8(TraceFault.GAP)
    fault[length_s > limits.longest_gap_s] |= np.uint8(TraceFault.CUT)
    fault[length_s < 0.0] |= np.uint8(TraceFault.CLOCK_BACK | TraceFault.CUT)
    fault[length_s == 0.0] |= np.uint8(TraceFault.DUPLICATE)
    return fault


def fault_places(faults: Bytes, fault: TraceFault) -> Places:
    """Where a fault is among steps or samples."""
    import numpy as np

    return np.flatnonzero(faults & np.uint8(fault))
