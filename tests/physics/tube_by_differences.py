"""Heat in an unrolled tube by finite differences, written apart from the product's formula, as its yardstick.

Half of the tube is followed, from the seam outward; the seam's row stands for a whole cell astride it.
"""

from collections.abc import Callable, Iterable

import numpy as np

AWAY_MM = 62.0


class DifferenceTube:
    """A tube on a grid about half a millimetre wide: wall [mm], way round [mm], W/mK, J/m³K, W/m²K for both faces."""

    def __init__(self, wall_mm: float, around_mm: float, k: float, stores: float, loss: float, cell_mm: float = 0.5):
        self.around = round(around_mm / cell_mm)
        self.cell_m = around_mm / self.around * 1e-3
        self.rise = np.zeros((self.around, round(AWAY_MM * 1e-3 / self.cell_m)))
        self.heat_of_cell = stores * wall_mm * 1e-3 * self.cell_m**2
        self.step_s = 0.2 * self.cell_m**2 * stores / k
        self.mix = k / stores / self.cell_m**2 * self.step_s
        self.fade = loss / (stores * wall_mm * 1e-3) * self.step_s
        self.at_s = 0.0

    def _cool(self) -> None:
        rise = self.rise
        around = np.roll(rise, 1, axis=0) + np.roll(rise, -1, axis=0)
        along = np.empty_like(rise)
        along[:, 1:-1] = rise[:, :-2] + rise[:, 2:]
        along[:, 0] = 2.0 * rise[:, 1]
        along[:, -1] = rise[:, -2] + rise[:, -1]
        self.rise = rise + self.mix * (around + along - 4.0 * rise) - self.fade * rise
        self.at_s += self.step_s

    def run(self, until_s: float, torch: Callable[[float], tuple[float, float]]) -> None:
        """Go on to a time; `torch` gives the power [W] and the place [mm] of the arc at a time, 0 W when it is out."""
        while self.at_s < until_s:
            power_w, place_mm = torch(self.at_s + 0.5 * self.step_s)
            if power_w:
                self._heat(power_w, place_mm)
            self._cool()

    def _heat(self, power_w: float, place_mm: float) -> None:
        cell = place_mm * 1e-3 / self.cell_m
        share = cell - np.floor(cell)
        for at, part in ((int(np.floor(cell)), 1.0 - share), (int(np.floor(cell)) + 1, share)):
            self.rise[at % self.around, 0] += part * power_w * self.step_s / self.heat_of_cell

    def seam(self, places_mm: Iterable[float]) -> list[float]:
        """Rise of temperature at places along the seam [K], between cells in proportion."""
        cells = np.array(list(places_mm)) * 1e-3 / self.cell_m
        row = np.append(self.rise[:, 0], self.rise[0, 0])
        return np.interp(cells % self.around, np.arange(self.around + 1), row).tolist()

    def hottest(self) -> float:
        """The highest rise anywhere [K]."""
        return float(self.rise.max())
