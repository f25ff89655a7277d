"""What is known of the oxygen in a purge: a reading when there is one, else the forecast, and which it is."""

from __future__ import annotations

from typing import Literal, NamedTuple

from server.physics.inputs import between


class KnownOxygen(NamedTuple):
    """Oxygen [ppm] and where the figure comes from."""

    oxygen_ppm: float
    provenance: Literal["read", "computed"]


def known_oxygen(forecast_ppm: float, reading_ppm: float | None) -> KnownOxygen:
    """The oxygen to go by: a measured reading always overrides the forecast, whichever is higher.

    Equation: the reading if there is one, else the forecast
    Inputs: forecast_ppm, from forecast_purge [ppm]; reading_ppm, from an analyser at the vent [ppm], None without one.
    Result: a KnownOxygen [ppm] with its provenance, `read` or `computed`.
    Example:
        >>> known_oxygen(forecast_ppm=12.0, reading_ppm=35.0)
        KnownOxygen(oxygen_ppm=35.0, provenance='read')

    Range and traps: A forecast never releases a joint; it says when to look. A reading below the gas's own oxygen is
        not possible: ask reading_possible.
    Source: the shop's own analyser comes before any model.
    """
    if reading_ppm is not None:
        return KnownOxygen(between("reading_ppm", reading_ppm, -1e6, 1e6), "read")
    return KnownOxygen(between("forecast_ppm", forecast_ppm, 0.0, 1e6), "computed")
