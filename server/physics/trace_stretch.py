"""Stretches of a trace with the arc on, found in one pass: energy, time, charge and faults of each."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from server.physics.trace_found import TraceFault
from server.physics.trace_piece import Columns, Piece, read_piece
from server.physics.trace_state import ArcOn, arc_stretches
from server.physics.trace_steps import StepLimits, fault_places

if TYPE_CHECKING:
    from server.physics.arrays import Floats, Numbers, Places, Truths

# 512 kB a column: with fewer samples the calls themselves cost more than the samples, with more the cache is left.
_PIECE = 65_536
_COUNTED = TraceFault.GAP | TraceFault.CLOCK_BACK | TraceFault.DUPLICATE


class Stretch(NamedTuple):
    """Samples `first` … `last` with the arc on; `cut` when the recording broke just before them."""

    first: int
    last: int
    cut: bool
    fault: int
    missing_s: float
    energy_j: float
    arc_s: float
    charge_as: float
    flux_vs: float
    peak_w: float


def find_stretches(trace: Columns, levels: ArcOn, limits: StepLimits, counts: Counter[TraceFault]) -> list[Stretch]:
    """All stretches with the arc on, in order, still apart where two pieces of the trace meet; counts the faults."""
    import numpy as np

    found: list[Stretch] = []
    was_on = False
    with np.errstate(invalid="ignore", over="ignore"):
        for first in range(0, trace.time_s.size, _PIECE):
            end = min(first + _PIECE, trace.time_s.size)
            piece = read_piece(trace, first, end, limits)
            _count(piece, counts)
            # The columns as given: a reading that is not a number says neither on nor off.
            start, on = arc_stretches(trace.amps[first:end], trace.volts[first:end], was_on, levels)
            found.extend(_stretches(piece, start, on, was_on))
            was_on = bool(on[-1])
    return found


def _count(piece: Piece, counts: Counter[TraceFault]) -> None:
    if piece.seen is not None:
        counts[TraceFault.NOT_A_NUMBER] += int(piece.seen.size - piece.seen.sum())
    for fault in _COUNTED & piece.steps.kinds:
        if piece.steps.fault is not None:
            # The step after the last sample is counted with the next piece.
            counts[fault] += fault_places(piece.steps.fault[:-1], fault).size


def _stretches(piece: Piece, start: Places, on: Truths, was_on: bool) -> Iterator[Stretch]:
    import numpy as np

    start, on, cut = _cut(piece, start, on)
    last = np.append(start[1:], piece.weight_s.size) - 1
    fault, missing_s = _missed(piece, start, last, on, was_on)
    sums = [_sums(piece.weight_s, column, start) for column in (piece.power_w, None, piece.amps, piece.volts)]
    peak_w = np.maximum.reduceat(piece.power_w, start)
    for k in np.flatnonzero(on):
        numbers = (float(column[k]) for column in (*sums, peak_w))
        place = (piece.first + int(start[k]), piece.first + int(last[k]))
        yield Stretch(*place, bool(cut[k]), int(fault[k]), float(missing_s[k]), *numbers)


def _cut(piece: Piece, start: Places, on: Truths) -> tuple[Places, Truths, Truths]:
    """Part the stretches again wherever the recording broke."""
    import numpy as np

    if piece.steps.fault is None or not piece.steps.kinds & TraceFault.CUT:
        return start, on, np.zeros(start.size, np.bool_)
    broken = fault_places(piece.steps.fault[:-1], TraceFault.CUT)
    parted = np.union1d(start, broken)
    return parted, on[np.searchsorted(start, parted, side="right") - 1], np.isin(parted, broken)


def _missed(piece: Piece, start: Places, last: Places, on: Truths, was_on: bool) -> tuple[Places, Floats]:
    """Faults and missing time of each stretch; a step between two stretches goes to the earlier that is on."""
    import numpy as np

    missed_s, fault = piece.steps.missed_s, piece.steps.fault
    if missed_s is None or fault is None:
        return np.zeros(start.size, np.intp), np.zeros(start.size)
    before_on = np.append(was_on, np.repeat(on, last - start + 1)[:-1])
    touching = np.bitwise_or.reduceat(fault[1:] | fault[:-1], start)
    missing_s = missed_s[1:] + np.where(before_on, 0.0, missed_s[:-1])
    return touching.astype(np.intp), np.add.reduceat(missing_s, start)


def _sums(weight_s: Floats, column: Numbers | None, start: Places) -> Floats:
    import numpy as np

    if start.size == 1:
        whole = weight_s.sum() if column is None else weight_s @ column.astype(np.float64, copy=False)
        return np.array([whole])
    return np.add.reduceat(weight_s if column is None else weight_s * column, start)
