"""Pictures of an arc's power: how it runs over two pulses, and how the arc energy parts into metal and loss."""

from dataclasses import dataclass

from server.charts.axes import even_axis
from server.charts.curve_sheet import Curve, CurveSheet, Place, Size, lay_out
from server.pages.calculators.form import Form

_PULSES = 2


@dataclass(frozen=True, slots=True)
class HeatPicture:
    """The arc's power against time, and the share of it that the metal is taken to get, in hundredths."""

    power: CurveSheet
    metal_percent: float


def heat_picture(form: Form, power_w: float, share: float) -> HeatPicture:
    """Draw the arc that the form describes."""
    pulsed = form.chosen["arc"] == "pulsed"
    wave = _wave(form) if pulsed else [(0.0, power_w), (_PULSES, power_w)]
    highest = max(watts for _, watts in wave)
    axes = even_axis("pulses" if pulsed else "time", 0.0, _PULSES), even_axis("arc power [W]", 0.0, 1.25 * highest)
    ground = [(_PULSES, 0.0), (0.0, 0.0)]
    sheet = lay_out(
        f"Arc power over {_PULSES} pulses" if pulsed else "Arc power of a steady arc",
        [Curve("power of the arc", "area", [*wave, *ground])],
        axes,
        limits=[(f"mean power {power_w:.4g} W", power_w)],
        size=Size(640.0, 260.0),
    )
    return HeatPicture(sheet, 100.0 * share)


def _wave(form: Form) -> list[Place]:
    duty = form.number("duty")
    peak_w = form.number("peak_a") * form.number("peak_v")
    base_w = form.number("base_a") * form.number("base_v")
    points: list[Place] = []
    for pulse in range(_PULSES):
        points += [(pulse, peak_w), (pulse + duty, peak_w), (pulse + duty, base_w), (pulse + 1.0, base_w)]
    return points

