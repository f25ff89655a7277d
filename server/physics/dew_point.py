"""Dew point of a gas and its water content, each from the other."""

from __future__ import annotations

import math

from server.physics.inputs import between

ATMOSPHERE_KPA = 101.325
_COLDEST_C, _WARMEST_C = -100.0, 0.0


def water_ppmv(dew_point_c: float, pressure_kpa: float = ATMOSPHERE_KPA) -> float:
    """Water content of a gas from its dew point, taken over ice.

    Equation: x = 10⁶ · e(T) / p;  ln(e / 100 Pa) = 24.7219 − 6024.5282 / T + 0.010613868 T − 1.3198825·10⁻⁵ T²
        − 0.49382577 ln T
    Inputs: dew_point_c [°C], T the same in kelvin; pressure_kpa p at which the dew point was read [kPa].
    Result: water content [ppm by volume].
    Example:
        >>> round(water_ppmv(-50.0), 1)
        38.8

    Range and traps: −100 to 0 °C. Below 0 °C a meter shows the frost point, as here; over supercooled water the
        figures are a tenth higher at −10 °C and two thirds higher at −50 °C. −58 °F is −50 °C and −76 °F is −60 °C: a
        dew point without its unit can be off by a factor of ten in ppm. Under line pressure the dew point is warmer
        than at the torch.
    Source: Sonntag 1990, vapour pressure over ice; agrees with a printed frost-point table within 0.2 %.
    """
    dew_c = between("dew_point_c", dew_point_c, _COLDEST_C, _WARMEST_C, "Give it in °C, over ice; check the sign.")
    return 1e3 * _vapour_pa(dew_c + 273.15) / between("pressure_kpa", pressure_kpa, 10.0, 40_000.0)


def dew_point_c(water_ppmv: float, pressure_kpa: float = ATMOSPHERE_KPA) -> float:
    """Dew point of a gas from its water content, taken over ice.

    Equation: the T at which 10⁶ · e(T) / p equals the water content, e(T) as in water_ppmv.
    Inputs: water_ppmv [ppm by volume]; pressure_kpa p for which the dew point is wanted [kPa].
    Result: dew point [°C].
    Example:
        >>> round(dew_point_c(10.5), 1)
        -60.1

    Range and traps: Contents whose dew point lies outside −100 to 0 °C are refused.
    Source: Sonntag 1990, vapour pressure over ice.
    """
    pressure_kpa = between("pressure_kpa", pressure_kpa, 10.0, 40_000.0)
    driest, wettest = (1e3 * _vapour_pa(c + 273.15) / pressure_kpa for c in (_COLDEST_C, _WARMEST_C))
    content_ppmv = between("water_ppmv", water_ppmv, driest, wettest, "Give parts per million by volume.")
    wanted_pa = content_ppmv * pressure_kpa / 1e3
    kelvin = 220.0
    # Six steps are enough from one end of the range to the other; two more cost nothing.
    for _ in range(8):
        slope = 6024.5282 / kelvin**2 + 0.010613868 - 2.639765e-5 * kelvin - 0.49382577 / kelvin
        kelvin -= math.log(_vapour_pa(kelvin) / wanted_pa) / slope
    return kelvin - 273.15


def _vapour_pa(kelvin: float) -> float:
    exponent = 24.7219 - 6024.5282 / kelvin + 0.010613868 * kelvin - 1.3198825e-5 * kelvin**2
    return 100.0 * math.exp(exponent - 0.49382577 * math.log(kelvin))
