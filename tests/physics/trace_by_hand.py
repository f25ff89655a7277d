"""The energy of a trace sample by sample, written plainly and apart from the product's way, as its yardstick."""

from dataclasses import dataclass, field
from itertools import pairwise
from math import isfinite

from server.physics.trace_state import ArcOn


@dataclass
class ByHand:
    """What the plain way found."""

    energy_j: float = 0.0
    arc_s: float = 0.0
    missing_s: float = 0.0
    on: list[bool] = field(default_factory=list)


def arc_states(amps, volts, levels: ArcOn) -> list[bool]:
    states, now = [], False
    for a, v in zip(amps, volts, strict=True):
        if a >= levels.on_a and levels.on_v[0] <= v <= levels.on_v[1]:
            now = True
        elif a < levels.off_a or v < levels.off_v[0] or v > levels.off_v[1]:
            now = False
        states.append(now)
    return states


def by_hand(time_s, amps, volts, usual_s: float, levels: ArcOn) -> ByHand:
    """Add half of every step that can be summed to each of its ends, if the arc is on there."""
    found = ByHand(on=arc_states(amps, volts, levels))
    longest_s = max(5.0 * usual_s, 0.05)
    samples = list(zip(time_s, amps, volts, found.on, strict=True))
    for (t0, a0, v0, on0), (t1, a1, v1, on1) in pairwise(samples):
        step_s = t1 - t0
        if all(map(isfinite, (t0, t1, a0 * v0, a1 * v1))) and 0.0 < step_s <= longest_s:
            found.energy_j += 0.5 * step_s * ((a0 * v0 if on0 else 0.0) + (a1 * v1 if on1 else 0.0))
            found.arc_s += 0.5 * step_s * (on0 + on1)
        elif on0 or on1:
            found.missing_s += step_s if step_s >= 0.0 else usual_s
    return found
