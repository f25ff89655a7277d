"""Arc energy of a sampled trace: the sum of volts times amps from each arc-on to its arc-off."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from server.physics.errors import UnusableInput
from server.physics.trace_beads import join_beads, span_of
from server.physics.trace_found import COUNTED, TraceFault, TraceFound
from server.physics.trace_piece import Columns
from server.physics.trace_state import ArcOn
from server.physics.trace_steps import StepLimits
from server.physics.trace_stretch import find_stretches

if TYPE_CHECKING:
    from server.physics.arrays import Given, Numbers

_STEPS_READ = 4096


def trace_energy(time_s: Given, amps: Given, volts: Given, arc_on: ArcOn | None = None) -> TraceFound:
    """Arc energy, arc time and beads of a sampled trace, with all that was missed flagged and bounded.

    Equation: E = Σ ½ (Uk·Ik + Uk+1·Ik+1) · (tk+1 − tk) over the steps seen with the arc on; at most E + Tmiss · Pmax.
    Inputs: time_s [s], amps [A] and volts [V], arrays of one length; arc_on, the levels of arc-on and arc-off.
    Result: a TraceFound: the whole and each bead with energy [J], arc time [s], missing time [s] and faults.
    Example:
        >>> found = trace_energy([0.0, 0.04, 0.08, 0.12, 0.16], [0, 50, 50, 50, 0], [60, 10, 10, 10, 60])
        >>> round(found.whole.energy_j, 6), len(found.beads)
        (60.0, 1)

    Range and traps: A step is not summed when an end is not a number, when the clock stood still or ran back, or when
        it is longer than 5 usual steps and 50 ms. What was missed inside a bead is never bridged: it is missing time.
        A gap above 1 s, or a clock running back, ends the bead, and both sides are undecided. The upper bound holds
        while the arc did not burn above its highest power seen. Each sample stands for half of the steps beside it,
        so energies of pieces cut at a sample add up. A clamp put on the wrong way round gives amps below zero, and
        no arc is found. Whether the trace is fast enough for its pulse is asked with judge_sampling.
    Source: ISO/TR 18491:2015 method B; ASME IX-2023 Nonmandatory Appendix H (sum from trigger-on to trigger-off).
    """
    levels = arc_on or ArcOn()
    trace = _columns(time_s, amps, volts)
    step_s = _usual_step_s(trace.time_s)
    counts = Counter(dict.fromkeys(COUNTED, 0))
    limits = StepLimits(step_s, max(5.0 * step_s, 0.05), max(5.0 * step_s, levels.longest_gap_s))
    stretches = find_stretches(trace, levels, limits, counts)
    if counts[TraceFault.NOT_A_NUMBER] == trace.time_s.size:
        remedy = "Check which columns of the recording hold time, amps and volts."
        raise UnusableInput("trace", "all not-a-number", "a number for time, amps and volts in each row", remedy)
    beads = join_beads(stretches, trace.time_s, levels)
    spans = tuple(span_of([bead], trace.time_s) for bead in beads)
    return TraceFound(span_of(beads, trace.time_s), spans, 1.0 / step_s, dict(counts))


def _columns(*given: Given) -> Columns:
    import numpy as np

    trace = Columns(*(np.asarray(column, dtype=_float_type(column)) for column in given))
    shapes = [column.shape for column in trace]
    if len(set(shapes)) > 1 or len(shapes[0]) != 1:
        remedy = "Export time, amps and volts together, one row per sample."
        raise UnusableInput("trace", shapes, "three columns of one length", remedy)
    if trace.time_s.size < 2:
        samples = f"{trace.time_s.size} samples"
        raise UnusableInput("trace", samples, "two samples or more", "Attach the whole recording.")
    return trace


def _float_type(column: Given) -> str:
    """Keep the four-byte numbers of a logger as they are; everything else becomes eight-byte numbers."""
    return "float32" if str(getattr(column, "dtype", "")) == "float32" else "float64"


def _usual_step_s(time_s: Numbers) -> float:
    """Median of at most a few thousand steps, an odd number of samples apart to miss any rhythm of the logger."""
    import numpy as np

    starts = np.arange(0, time_s.size - 1, ((time_s.size - 1) // _STEPS_READ) | 1)
    steps = time_s[starts + 1].astype(np.float64) - time_s[starts]
    forward = steps[np.isfinite(steps) & (steps > 0.0)]
    if forward.size == 0:
        raise UnusableInput("time_s", "no step forward", "times in seconds that rise", "Check the time column.")
    return float(np.median(forward))
