"""Argon: its density, and how fast oxygen spreads in it."""

from __future__ import annotations

import math

from server.physics.inputs import between

_ARGON_KG_PER_MOL = 0.039948
_GAS_CONSTANT = 8.314462618
_OXYGEN_AT_273_K = 0.166e-4


def argon_density_kg_per_m3(gas_c: float = 20.0, pressure_kpa: float = 101.325) -> float:
    """Density of argon as an ideal gas.

    Equation: ρ = M · p / (R · T)
    Inputs: gas_c, T in kelvin by adding 273.15 [°C]; pressure_kpa p [kPa].
    Result: density [kg/m³].
    Example:
        >>> round(argon_density_kg_per_m3(20.0), 3)
        1.661

    Range and traps: −100 to 2000 °C up to 10 bar, to 0.1 % near one atmosphere; not for a cylinder.
        Argon is 1.38 times as heavy as air: it fills from below and collects in low places, where it takes the oxygen
        a person breathes. The law, the gas supplier's safety sheet and the shop's own rules for closed spaces
        come first.
    Source: ideal gas law; M = 39.948 g/mol.
    """
    kelvin = between("gas_c", gas_c, -100.0, 2000.0) + 273.15
    return _ARGON_KG_PER_MOL * between("pressure_kpa", pressure_kpa, 10.0, 1000.0) * 1e3 / (_GAS_CONSTANT * kelvin)


def oxygen_in_argon_m2_per_s(gas_c: float = 20.0) -> float:
    """Diffusion coefficient of oxygen in argon at atmospheric pressure.

    Equation: D = D0 · (T / 273.15 K)^1.75, D0 = 0.166 cm²/s
    Inputs: gas_c, T in kelvin by adding 273.15 [°C].
    Result: diffusion coefficient [m²/s].
    Example:
        >>> round(oxygen_in_argon_m2_per_s(20.0) * 1e4, 3)
        0.188

    Range and traps: −50 to 500 °C, one atmosphere; it falls as the pressure rises. Still gas only: draughts mix faster.
    Source: value at 273 K from a CRC table of gas diffusion; power 1.75 from memory of Fuller and others, 1966.
    """
    relative = (between("gas_c", gas_c, -50.0, 500.0) + 273.15) / 273.15
    return _OXYGEN_AT_273_K * math.pow(relative, 1.75)
