"""Joint by joint, sound or faulty: a sum that notices when a rare fault grows more frequent."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import accumulate
from math import ceil, log

from server.statistics.caveats import NOT_THE_JOINT
from server.statistics.chart import ControlChart, Track, level
from server.statistics.errors import UnusableInput
from server.statistics.inputs import positive, proportion


def bernoulli_cusum_chart(
    faulty: Iterable[bool], usual_rate: float, raised_rate: float, decision: float = 3.0
) -> ControlChart:
    """Chart a sum that each faulty joint lifts by one and every joint lowers by 1/m.

    Equation: B_i = max(0, B_(i−1) + x_i − 1/m), x = 1 when faulty; signal from h;
        m = ln[p1(1 − p0)/(p0(1 − p1))] / ln[(1 − p0)/(1 − p1)], rounded to a whole number.
    Inputs: faulty [yes or no], in time order; usual_rate p0, raised_rate p1 [1]; decision h [faults].
    Result: ControlChart with the track "faults in excess" [faults].
    Example:
        >>> joints = [False] * 10 + [True, False, True, True, True]
        >>> bernoulli_cusum_chart(joints, usual_rate=0.03, raised_rate=0.09).tracks[0].signals
        (14,)

    Range and traps: p0 < p1. The sum is kept in m-ths, so that rounding never moves a signal.
    Source: Reynolds and Stoumbos, Journal of Quality Technology 31 (1999) 87; equation from memory.
    """
    parts = joints_per_fault(usual_rate, raised_rate)
    threshold = ceil(positive("decision", decision) * parts)
    marks = [parts * bool(mark) - 1 for mark in faulty]
    sums = tuple(accumulate(marks, lambda total, mark: max(0, total + mark), initial=0))[1:]
    points = tuple(total / parts for total in sums)
    limit = (threshold - 0.5) / parts
    track = Track("faults in excess", points, 0.0, level(None, points), level(limit, points))
    usual = bernoulli_run_length(usual_rate, usual_rate, raised_rate, decision)
    raised = bernoulli_run_length(raised_rate, usual_rate, raised_rate, decision)
    figures = {"joints_per_fault": parts, "joints_to_a_false_signal": usual, "joints_to_a_true_signal": raised}
    often = f"At the usual rate it still signals once in about {usual:,.0f} joints; a raised one takes {raised:,.0f}."
    return ControlChart("bernoulli cusum", (track,), figures, (often, NOT_THE_JOINT))


def joints_per_fault(usual_rate: float, raised_rate: float) -> int:
    """Give how many joints wear off one fault on the chart, midway between the two rates.

    Equation: m = ln[p1(1 − p0)/(p0(1 − p1))] / ln[(1 − p0)/(1 − p1)], rounded to a whole number.
    Inputs: usual_rate p0, raised_rate p1 [1].
    Result: m [joints].
    Example:
        >>> joints_per_fault(0.03, 0.09)
        18

    Range and traps: p0 < p1; rates above a half leave nothing rare to watch.
    Source: Reynolds and Stoumbos, Journal of Quality Technology 31 (1999) 87; equation from memory.
    """
    usual, raised = proportion("usual_rate", usual_rate), proportion("raised_rate", raised_rate)
    if raised <= usual:
        raise UnusableInput("raised_rate", raised_rate, f"above usual_rate, {usual_rate!r}", "Say what would be bad.")
    fall = log((1.0 - usual) / (1.0 - raised))
    return max(1, round((log(raised / usual) + fall) / fall))


def bernoulli_run_length(rate: float, usual_rate: float, raised_rate: float, decision: float = 3.0) -> float:
    """Give how many joints pass, on average, before the chart signals at a given true rate.

    Equation: the mean passage time of the chart's whole-number steps, (I − M) n = 1, started at zero.
    Inputs: rate [1] the true one; usual_rate, raised_rate [1] and decision [faults] as charted.
    Result: the mean count to a signal [joints].
    Example:
        >>> round(bernoulli_run_length(0.03, 0.03, 0.09))
        1525

    Range and traps: a mean: half of all signals come well before it.
    Source: Brook and Evans, Biometrika 59 (1972) 539, for the method.
    """
    import numpy as np

    parts, true_rate = joints_per_fault(usual_rate, raised_rate), proportion("rate", rate)
    states = ceil(positive("decision", decision) * parts)
    moves = np.eye(states)
    for state in range(states):
        moves[state, max(0, state - 1)] -= 1.0 - true_rate
        if state + parts - 1 < states:
            moves[state, state + parts - 1] -= true_rate
    return float(np.linalg.solve(moves, np.ones(states))[0])
