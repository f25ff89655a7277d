"""How oxygen in the cells of a purge runs in time, by the matrix exponential."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from server.physics.purge_cells import PurgeCells
from server.physics.purge_single import AIR_OXYGEN_PPM
from server.physics.purge_step import step_matrix

if TYPE_CHECKING:
    from collections.abc import Sequence

    from server.physics.arrays import Floats

_DOUBLINGS = 22


@dataclass(frozen=True, slots=True)
class PurgeCourse:
    """The course of a purge that starts full of air: the oxygen all cells settle at [ppm], and the rates [1/s]."""

    floor_ppm: Floats
    rate_per_s: Floats

    @classmethod
    def of(cls, cells: PurgeCells) -> PurgeCourse:
        """The course that cells and their exchange lead to."""
        import numpy as np

        floor_ppm = np.linalg.solve(cells.rate_per_s, -cells.source_ppm_per_s)
        return cls(floor_ppm.astype(np.float64, copy=False), cells.rate_per_s)

    def curve_ppm(self, until_s: float, points: int) -> Floats:
        """Oxygen of each cell at evenly spread times from 0 to `until_s`, a row for each cell.

        Each product with the step's exponential doubles the part of the curve that is known.
        """
        import numpy as np

        above = np.empty((self.floor_ppm.size, points))
        above[:, 0] = AIR_OXYGEN_PPM - self.floor_ppm
        step = step_matrix(self.rate_per_s, until_s / (points - 1))
        known = 1
        while known < points:
            more = min(known, points - known)
            above[:, known : known + more] = step @ above[:, :more]
            step, known = step @ step, known + more
        return self.floor_ppm[:, None] + above

    def clear_s(self, groups: Sequence[range], target_ppm: float, within_s: float) -> list[float | None]:
        """When all cells of each group have come down to a target; None when that takes longer than `within_s`.

        Oxygen falls all the time from air, so the moment is closed in by halves: a step is taken where the group
        is still above the target after it.
        """
        import numpy as np

        steps = self._doubled_steps(within_s / 2**_DOUBLINGS)
        above = np.repeat((AIR_OXYGEN_PPM - self.floor_ppm)[:, None], len(groups), axis=1)
        late = self._worst(steps[-1] @ above, groups) > target_ppm
        waited = np.zeros(len(groups), np.int64)
        for doubling in range(_DOUBLINGS - 1, -1, -1):
            ahead = steps[doubling] @ above
            wait = self._worst(ahead, groups) > target_ppm
            above[:, wait] = ahead[:, wait]
            waited[wait] += 2**doubling
        seconds = (waited + 1) * (within_s / 2**_DOUBLINGS)
        return [None if never else float(at_s) for never, at_s in zip(late, seconds, strict=True)]

    def _doubled_steps(self, shortest_s: float) -> list[Floats]:
        steps = [step_matrix(self.rate_per_s, shortest_s)]
        for _ in range(_DOUBLINGS):
            steps.append(steps[-1] @ steps[-1])
        return steps

    def _worst(self, above: Floats, groups: Sequence[range]) -> Floats:
        import numpy as np

        oxygen_ppm = self.floor_ppm[:, None] + above
        return np.array([oxygen_ppm[own.start : own.stop, at].max() for at, own in enumerate(groups)])
