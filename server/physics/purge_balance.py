"""The oxygen balance of cells: what leaves each with the gas, comes back by diffusion, or leaks in from the air."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from server.physics.purge_single import AIR_OXYGEN_PPM

if TYPE_CHECKING:
    from server.physics.arrays import Floats


class Balance:
    """Collects exchange between cells [m³/s] until it is read per volume."""

    def __init__(self, cells: int) -> None:
        import numpy as np

        self._exchange = np.zeros((cells, cells))
        self._source = np.zeros(cells)

    def join(self, here: int, there: int | None, flow: float, ease: float) -> None:
        """Let gas pass from one cell to another, or to the air, by a flow and by diffusion with or against it.

        The exact profile in the hole gives the share that creeps back: ease · x / (eˣ − 1) with x = flow / ease, so
        that a vent with a brisk flow lets no air in and one without lets in what diffuses.
        """
        back = _against(flow, ease)
        self._exchange[here, here] -= flow + back
        if there is None:
            self._source[here] += back * AIR_OXYGEN_PPM
        else:
            self._exchange[there, here] += flow + back
            self._exchange[there, there] -= back
            self._exchange[here, there] += back

    def feed(self, here: int, flow: float, oxygen_ppm: float) -> None:
        """Let a flow with some oxygen into a cell."""
        self._source[here] += flow * oxygen_ppm

    def per_volume(self, volumes_m3: Sequence[float]) -> tuple[Floats, Floats]:
        """The rates [1/s] and the sources [ppm/s] of the cells, given their volumes."""
        import numpy as np

        volume = np.array(volumes_m3)
        return self._exchange / volume[:, None], self._source / volume


def _against(flow: float, ease: float) -> float:
    ratio = flow / ease
    if ratio > 500.0:
        return 0.0
    return ease * ratio / math.expm1(ratio) if abs(ratio) > 1e-12 else ease
