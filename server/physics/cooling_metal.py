"""The metal of a thin tube as heat sees it: how it conducts, stores and gives off heat, and how far that is known."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import product

from server.physics.band import Band
from server.physics.inputs import positive


@dataclass(frozen=True, slots=True)
class TubeMetal:
    """Conductivity k [W/(m·K)], heat stored by volume [J/(m³·K)], and heat given off by both faces [W/(m²·K)].

    The figures of 3Al-2.5V titanium are effective ones between welding heat and a few hundred degrees: sources differ
    in its conductivity by a factor of 1.5, and the gas over it decides what it gives off. Hence the band.
    """

    conducts_w_per_m_k: float = 15.0
    stores_j_per_m3_k: float = 2.9e6
    gives_off_w_per_m2_k: float = 50.0

    def __post_init__(self) -> None:
        positive("conducts_w_per_m_k", self.conducts_w_per_m_k)
        positive("stores_j_per_m3_k", self.stores_j_per_m3_k)

    @property
    def spreads_m2_per_s(self) -> float:
        """How fast heat spreads: k / ρc."""
        return self.conducts_w_per_m_k / self.stores_j_per_m3_k


TITANIUM_TUBE = TubeMetal()
_CORNERS = tuple(TubeMetal(k, 2.9e6, h) for k, h in product((11.0, 19.0), (35.0, 80.0)))


def over_metals(compute: Callable[[TubeMetal], float]) -> Band:
    """A figure for titanium tube with the band that its conductivity and its loss of heat leave open.

    Example:
        >>> over_metals(lambda metal: metal.conducts_w_per_m_k)
        Band(low=11.0, expected=15.0, high=19.0)
    """
    expected = compute(TITANIUM_TUBE)
    corners = [compute(metal) for metal in _CORNERS]
    return Band(min(expected, *corners), expected, max(expected, *corners))
