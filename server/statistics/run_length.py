"""How long a chart runs before it signals, truly or falsely."""

from __future__ import annotations

from math import pi, sqrt
from statistics import NormalDist
from typing import TYPE_CHECKING

from server.statistics.errors import UnusableInput
from server.statistics.inputs import finite, positive

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_NODES = 80


def cusum_run_length(shift: float, allowance: float = 0.5, decision: float = 5.0, sides: int = 2) -> float:
    """Give the mean count of readings before a cusum signals when the mean has shifted.

    Equation: L(z) = 1 + L(0) Φ(k − z − δ) + ∫₀ʰ L(x) φ(x + k − z − δ) dx; both sides: 1/L = 1/L₊ + 1/L₋.
    Inputs: shift δ, allowance k, decision h [σ]; sides [count] 1 or 2.
    Result: the mean run length from a fresh start [readings].
    Example:
        >>> round(cusum_run_length(0.0)), round(cusum_run_length(1.0), 1)
        (465, 10.4)

    Range and traps: normal, independent readings and a known sigma; real runs vary as widely as their mean.
    Source: Page, Biometrika 41 (1954) 100; Lucas and Crosier, Technometrics 24 (1982) 199.
    """
    if sides not in (1, 2):
        raise UnusableInput("sides", sides, "1 or 2", "A tabular cusum watches one side or both.")
    moved = finite("shift", shift)
    slack, limit = finite("allowance", allowance), positive("decision", decision)
    rising = _one_side(moved, slack, limit)
    return rising if sides == 1 else 1.0 / (1.0 / rising + 1.0 / _one_side(-moved, slack, limit))


def ewma_run_length(shift: float, weight: float, width: float) -> float:
    """Give the mean count of readings before an ewma chart signals when the mean has shifted.

    Equation: L(u) = 1 + (1/λ) ∫ L(x) φ((x − (1 − λ)u)/λ − δ) dx over ±L_w √(λ/(2 − λ)).
    Inputs: shift δ [σ]; weight λ, width L_w [1].
    Result: the mean run length from the centre [readings].
    Example:
        >>> round(ewma_run_length(0.0, 0.1, 2.814))
        500

    Range and traps: steady limits from the first reading on; weight at least 0.01.
    Source: Crowder, Technometrics 29 (1987) 401.
    """
    moved, reach = finite("shift", shift), positive("width", width) * sqrt(weight / (2.0 - weight))
    if not 0.01 <= weight <= 1.0:
        raise UnusableInput("weight", weight, "0.01 to 1", "0.1 to 0.3 is usual.")
    nodes, weights = _gauss(-reach, reach)
    steps = (nodes[None, :] - (1.0 - weight) * nodes[:, None]) / weight - moved
    runs = _solve(_density(steps) * weights / weight)
    first = _density(nodes / weight - moved) * weights / weight
    return float(1.0 + first @ runs)


def ewma_width(weight: float, run_length: float) -> float:
    """Give the limit width at which a steady process signals falsely once in so many readings.

    Equation: ewma_run_length(0, λ, L_w) = run_length, solved for L_w by halving.
    Inputs: weight λ [1]; run_length [readings].
    Result: width L_w [1].
    Example:
        >>> round(ewma_width(0.1, 500.0), 2)
        2.81

    Range and traps: widths from 0.5 to 6; steady limits.
    Source: Crowder, Journal of Quality Technology 21 (1989) 155.
    """
    low, high = 0.5, 6.0
    positive("run_length", run_length)
    while high - low > 1e-6:
        middle = (low + high) / 2.0
        low, high = (middle, high) if ewma_run_length(0.0, weight, middle) < run_length else (low, middle)
    return low


def _one_side(shift: float, slack: float, limit: float) -> float:
    """The mean run length of the rising sum, its state zero joined to the nodes above it."""
    import numpy as np

    nodes, weights = _gauss(0.0, limit)
    states, normal = np.concatenate(([0.0], nodes)), NormalDist()
    moves = np.empty((_NODES + 1, _NODES + 1))
    moves[:, 0] = [normal.cdf(slack - state - shift) for state in states]
    moves[:, 1:] = _density(nodes[None, :] + slack - states[:, None] - shift) * weights
    return float(_solve(moves)[0])


def _gauss(low: float, high: float) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Nodes and weights that integrate smooth curves between two ends."""
    from numpy.polynomial.legendre import leggauss

    nodes, weights = leggauss(_NODES)
    half = (high - low) / 2.0
    return low + half * (nodes + 1.0), half * weights


def _density(deviates: NDArray[np.float64]) -> NDArray[np.float64]:
    """The height of the normal curve."""
    import numpy as np

    return np.asarray(np.exp(-0.5 * deviates**2) / sqrt(2.0 * pi), dtype=np.float64)


def _solve(moves: NDArray[np.float64]) -> NDArray[np.float64]:
    """The mean passage times of a set of moves that leak out beyond the limit."""
    import numpy as np

    return np.asarray(np.linalg.solve(np.eye(len(moves)) - moves, np.ones(len(moves))), dtype=np.float64)
