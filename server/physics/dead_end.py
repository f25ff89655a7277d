"""A tube closed at its far end: gas changes in it by diffusion alone, and that takes hours."""

from __future__ import annotations

import math

from server.physics.argon import oxygen_in_argon_m2_per_s
from server.physics.errors import UnusableInput
from server.physics.inputs import between

_TERMS = 40


def dead_end_share(length_m: float, after_s: float, gas_c: float = 20.0) -> float:
    """Share of its first oxygen that a dead end open at one end still holds on average.

    Equation: s = 8/π² · Σ exp[−(2n+1)² · t / τ] / (2n+1)²,  τ = 4 L² / (π² D)
    Inputs: length_m L [m], after_s t [s], gas_c [°C] for the diffusion coefficient D.
    Result: share [1], of what lies above the oxygen at its mouth.
    Example:
        >>> round(dead_end_share(length_m=0.41, after_s=3600.0), 2)
        0.3

    Range and traps: The mouth as wide as the bore and swept clean from the start; a small hole makes it slower still.
        The far end holds up to 1.57 times the average. Warm or tilted tubes mix by their own weight and are faster.
    Source: diffusion in a rod with one sealed end, Crank, The Mathematics of Diffusion, from memory.
    """
    turns = between("after_s", after_s, 0.0, 1e9) / _slowest_s(length_m, gas_c)
    if turns < 1e-3:
        # The series converges slowly at first; its limit for a tube without a far end is exact there.
        return 1.0 - 4.0 / math.pi * math.sqrt(turns / math.pi)
    terms = (math.exp(-odd * odd * turns) / (odd * odd) for odd in range(1, 2 * _TERMS, 2))
    return 8.0 / math.pi**2 * sum(terms)


def dead_end_s(length_m: float, start_ppm: float, target_ppm: float, gas_c: float = 20.0) -> float:
    """Time until a dead end open at one end holds a target oxygen on average, by diffusion alone.

    Equation: the t at which dead_end_share equals C / C0; close to τ · ln(8/π² · C0 / C)
    Inputs: length_m L [m]; start_ppm C0 and target_ppm C [ppm], both above the oxygen at its mouth; gas_c [°C].
    Result: time [s].
    Example:
        >>> round(dead_end_s(length_m=0.41, start_ppm=209_460.0, target_ppm=20.0) / 3600.0, 1)
        9.1

    Range and traps: As dead_end_share. Give a stay its far vent instead of waiting: hours become a minute or two.
    Source: diffusion in a rod with one sealed end, Crank, The Mathematics of Diffusion, from memory.
    """
    share = between("target_ppm", target_ppm, 1e-6, 1e6) / between("start_ppm", start_ppm, 1e-6, 1e6)
    if share >= 1.0:
        raise UnusableInput("target_ppm", target_ppm, f"less than the start, {start_ppm:g} ppm", "Nothing to wait for.")
    if share < 0.2:
        # From here on the first term alone is exact to a few parts in a million.
        return _slowest_s(length_m, gas_c) * math.log(8.0 / math.pi**2 / share)
    return _bisected_s(length_m, share, gas_c)


def _bisected_s(length_m: float, share: float, gas_c: float) -> float:
    early_s, late_s = 0.0, 2.0 * _slowest_s(length_m, gas_c)
    for _ in range(60):
        middle_s = 0.5 * (early_s + late_s)
        if dead_end_share(length_m, middle_s, gas_c) > share:
            early_s = middle_s
        else:
            late_s = middle_s
    return late_s


def _slowest_s(length_m: float, gas_c: float) -> float:
    return 4.0 * between("length_m", length_m, 1e-3, 100.0) ** 2 / (math.pi**2 * oxygen_in_argon_m2_per_s(gas_c))
