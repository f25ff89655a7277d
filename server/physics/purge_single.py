"""Purging one well-mixed volume: its oxygen against time, the floor it cannot go under, and the time to a target."""

from __future__ import annotations

import math
from dataclasses import dataclass

from server.physics.errors import UnusableInput
from server.physics.inputs import between, positive

AIR_OXYGEN_PPM = 209_460.0


@dataclass(frozen=True, slots=True)
class OneVolume:
    """A volume [L], gas [L/min] of some oxygen [ppm] flowing in, air leaking in [mL/min], and oxygen at first [ppm]."""

    volume_l: float
    gas_l_per_min: float
    gas_oxygen_ppm: float = 0.0
    leak_ml_per_min: float = 0.0
    start_ppm: float = AIR_OXYGEN_PPM

    def __post_init__(self) -> None:
        positive("volume_l", self.volume_l)
        positive("gas_l_per_min", self.gas_l_per_min, "Without a flow nothing is purged: open the valve.")
        between("gas_oxygen_ppm", self.gas_oxygen_ppm, 0.0, AIR_OXYGEN_PPM)
        between("leak_ml_per_min", self.leak_ml_per_min, 0.0, 1e6)
        between("start_ppm", self.start_ppm, 0.0, 1e6)

    @property
    def changes_per_s(self) -> float:
        """Volume changes per second, gas and leak together."""
        return (self.gas_l_per_min + self.leak_ml_per_min * 1e-3) / self.volume_l / 60.0


def purge_floor_ppm(purge: OneVolume) -> float:
    """Oxygen that a purged volume settles at, from its gas and its leak.

    Equation: C∞ = (F · Cs + l · Cair) / (F + l),  Cair = 209 460 ppm
    Inputs: purge: flow F [L/min] of gas with oxygen Cs [ppm], leak l of air [mL/min].
    Result: oxygen [ppm].
    Example:
        >>> round(purge_floor_ppm(OneVolume(volume_l=2.0, gas_l_per_min=10.0, leak_ml_per_min=0.9)), 1)
        18.8

    Range and traps: No time and no number of volume changes brings the oxygen under the floor. A leak of a
        thousandth of the flow costs 200 ppm. Moisture and gas given off by dirt are not in it.
    Source: balance of oxygen.
    """
    leak_l_per_min = purge.leak_ml_per_min * 1e-3
    carried = purge.gas_l_per_min * purge.gas_oxygen_ppm + leak_l_per_min * AIR_OXYGEN_PPM
    return carried / (purge.gas_l_per_min + leak_l_per_min)


def purge_oxygen_ppm(purge: OneVolume, after_s: float) -> float:
    """Oxygen in a well-mixed volume after a time of purging.

    Equation: C(t) = C∞ + (C0 − C∞) · exp[−(F + l) t / V]
    Inputs: purge: V [L], F [L/min], Cs [ppm], l [mL/min], C0 [ppm]; after_s t [s].
    Result: oxygen [ppm].
    Example:
        >>> round(purge_oxygen_ppm(OneVolume(volume_l=2.0, gas_l_per_min=10.0), after_s=120.0), 1)
        9.5

    Range and traps: Full mixing, the slow side: gas that pushes the air ahead of it purges a tube two to five times
        sooner, and dead ends far later. A planning figure: a reading at the vent always overrides it. Flow and leak
        are counted at one temperature and pressure.
    Source: balance of oxygen in a stirred volume.
    """
    floor_ppm = purge_floor_ppm(purge)
    changes = purge.changes_per_s * between("after_s", after_s, 0.0, 1e7)
    return floor_ppm + (purge.start_ppm - floor_ppm) * math.exp(-changes)


def purge_changes(purge: OneVolume, target_ppm: float) -> float:
    """Volume changes that bring a well-mixed volume to a target; divide by changes_per_s for the time in seconds.

    Equation: N = ln[(C0 − C∞) / (C − C∞)]
    Inputs: purge as above; target_ppm C [ppm].
    Result: volume changes [1]; 0 when the target is met from the start.
    Example:
        >>> round(purge_changes(OneVolume(2.0, 10.0, gas_oxygen_ppm=5.0), target_ppm=20.0), 2)
        9.54

    Range and traps: A target at or under the floor is never reached and is refused, naming the floor. Volume changes
        are no proof of oxygen: four or five, as rules of thumb go, leave more than 1000 ppm when the gas mixes.
    Source: balance of oxygen in a stirred volume.
    """
    floor_ppm = purge_floor_ppm(purge)
    if between("target_ppm", target_ppm, 0.0, 1e6) <= floor_ppm:
        remedy = "Never reached with this gas and leak: mend the leak or use purer gas."
        raise UnusableInput("target_ppm", target_ppm, f"more than the floor of {floor_ppm:.3g} ppm", remedy)
    return max(0.0, math.log(max(purge.start_ppm - floor_ppm, 1e-300) / (target_ppm - floor_ppm)))
