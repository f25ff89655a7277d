"""The exponential that carries the oxygen of exchanging cells over a step in time."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from server.physics.arrays import Floats

_TERMS = 18


def step_matrix(rate_per_s: Floats, seconds: float) -> Floats:
    """exp(rate · seconds) of an exchange, in which every cell only loses to others.

    The fastest loss is taken out first, so that the series has no term below zero and nothing cancels. A library's
    exponential of a matrix this small may wait for threads it does not need, twenty times as long as it works.
    """
    import numpy as np

    fastest = max(0.0, float(-rate_per_s.diagonal().min()))
    halvings = max(0, math.ceil(math.log2(fastest * seconds))) if fastest * seconds > 1.0 else 0
    short_s = seconds / 2**halvings
    same = np.eye(len(rate_per_s))
    gain = (rate_per_s + fastest * same) * short_s
    term = total = same * math.exp(-fastest * short_s)
    for order in range(1, _TERMS + 1):
        term = term @ gain / order
        total = total + term
    for _ in range(halvings):
        total = total @ total
    return total
