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
    """Lengths to sum over [s]; beside them the lengths missed and what was wrong, None where nothing was.

    `kinds` are all faults met, so that nobody looks for those that are not there.
    """

    summed_s: Floats
    missed_s: Floats | None = None
    fault: Bytes | None = None
    kinds: TraceFault = TraceFault.NONE


def weigh_steps(length_s: Floats, seen: Truths | None, limits: StepLimits) -> Steps:
    """Split steps into those to sum and those missed; `seen` is None when every sample is a number."""
    import numpy as np

    even = bool(length_s.size) and length_s.min() > 0.0 and length_s.max() <= limits.longest_s
    if even and seen is None:
        return Steps(length_s)
    blind = np.zeros(length_s.size, np.bool_) if seen is None else ~(seen[1:] & seen[:-1])
    fault = blind.view(np.uint8) if even else _faults(length_s, blind, limits)
    # How long a step really was cannot be read from a clock that ran back or is not a number: one usual step.
    known_s = length_s if even else np.where(length_s >= 0.0, length_s, limits.usual_s)
    missed_s = np.where(fault, known_s, 0.0)
    return Steps(known_s - missed_s, missed_s, fault, TraceFault(int(np.bitwise_or.reduce(fault, initial=0))))


def _faults(length_s: Floats, blind: Truths, limits: StepLimits) -> Bytes:
    import numpy as np

    fault = np.zeros(length_s.size, np.uint8)
    fault[blind | np.isnan(length_s)] |= np.uint8(TraceFault.NOT_A_NUMBER)
    fault[length_s > limits.longest_s] |= np.uint8(TraceFault.GAP)
    fault[length_s > limits.longest_gap_s] |= np.uint8(TraceFault.CUT)
    fault[length_s < 0.0] |= np.uint8(TraceFault.CLOCK_BACK | TraceFault.CUT)
    fault[length_s == 0.0] |= np.uint8(TraceFault.DUPLICATE)
    return fault


def fault_places(faults: Bytes, fault: TraceFault) -> Places:
    """Where a fault is among steps or samples."""
    import numpy as np

    return np.flatnonzero(faults & np.uint8(fault))
