"""What happens in a tube without a vent: the gas in it heats and its pressure rises."""

from __future__ import annotations

from server.physics.inputs import between


def sealed_rise_kpa(from_c: float, to_c: float, pressure_kpa: float = 101.325) -> float:
    """Rise of pressure in a sealed tube whose gas is heated.

    Equation: Δp = p · (T2 / T1 − 1)
    Inputs: from_c and to_c, T1 and T2 in kelvin by adding 273.15 [°C]; pressure_kpa p at the start [kPa].
    Result: rise [kPa]; below zero on cooling, when air is drawn in.
    Example:
        >>> round(sealed_rise_kpa(from_c=20.0, to_c=300.0))
        97

    Range and traps: A closing bead holds about 1.5 kPa, so no tube may be closed without a vent. The gas heats more
        slowly than the metal. Heating or cutting a closed vessel can burst it: local codes and the qualified procedure
        come first.
    Source: ideal gas law at constant volume.
    """
    start_k = between("from_c", from_c, -100.0, 2000.0) + 273.15
    return between("pressure_kpa", pressure_kpa, 1.0, 10_000.0) * (
        (between("to_c", to_c, -100.0, 2000.0) + 273.15) / start_k - 1.0
    )
