"""A piece of a trace, short enough to stay in the processor's cache, with what each of its samples stands for."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, NamedTuple

from server.physics.trace_steps import StepLimits, Steps, weigh_steps

if TYPE_CHECKING:
    from server.physics.arrays import Floats, Numbers, Truths


class Columns(NamedTuple):
    """Time [s], amps and volts of a whole trace."""

    time_s: Numbers
    amps: Numbers
    volts: Numbers


@dataclass(frozen=True, slots=True)
class Piece:
    """Samples from `first`: power, amps, volts with 0 where not a number, and the time each stands for [s].

    `steps` are those before each sample and after the last one; `seen` is None when every sample is a number.
    """

    first: int
    power_w: Floats
    amps: Numbers
    volts: Numbers
    weight_s: Floats
    steps: Steps
    seen: Truths | None


def read_piece(trace: Columns, first: int, end: int, limits: StepLimits) -> Piece:
    """Read the samples `first` … `end` of a trace, with one neighbour on either side where there is one."""
    import numpy as np

    wide = slice(max(first - 1, 0), min(end + 1, trace.time_s.size))
    own = slice(first - wide.start, end - wide.start)
    power_w = np.multiply(trace.amps[wide], trace.volts[wide], dtype=np.float64)
    time_s = trace.time_s[wide].astype(np.float64, copy=False)
    seen = None if np.isfinite(power_w.sum() + time_s.sum()) else np.isfinite(power_w) & np.isfinite(time_s)
    steps = weigh_steps(time_s[1:] - time_s[:-1], seen, limits)
    steps = _padded(steps, 1 - own.start, end + 1 - wide.stop)
    weight_s = 0.5 * (steps.summed_s[1:] + steps.summed_s[:-1])
    piece = Piece(first, power_w[own], trace.amps[first:end], trace.volts[first:end], weight_s, steps, None)
    return piece if seen is None else _cleared(piece, seen[own])


def _cleared(piece: Piece, seen: Truths) -> Piece:
    import numpy as np

    power_w, amps, volts = (np.where(seen, column, 0.0) for column in (piece.power_w, piece.amps, piece.volts))
    return replace(piece, power_w=power_w, amps=amps, volts=volts, seen=seen)


def _padded(steps: Steps, before: int, after: int) -> Steps:
    """Add an empty step where the trace begins or ends, so that every sample has a step on both sides."""
    import numpy as np

    if not before and not after:
        return steps
    summed_s = np.pad(steps.summed_s, (before, after))
    if steps.missed_s is None or steps.fault is None:
        return Steps(summed_s)
    missed_s, fault = np.pad(steps.missed_s, (before, after)), np.pad(steps.fault, (before, after))
    return Steps(summed_s, missed_s, fault, steps.kinds)
