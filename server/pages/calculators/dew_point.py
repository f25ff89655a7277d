"""Dew point and water content, each from the other, and whether an oxygen reading can be true beside its gas."""

from collections.abc import Mapping
from dataclasses import dataclass

from server.charts.axes import even_axis, powers_axis
from server.charts.curve_sheet import Curve, CurveSheet, Size, lay_out
from server.pages.calculators.form import Choice, Form, read_form, with_problem
from server.pages.calculators.quantity import Field
from server.physics.dew_point import ATMOSPHERE_KPA, dew_point_c, water_ppmv
from server.physics.errors import UnusableInput
from server.physics.gas_certificate import PossibleReading, reading_possible

_PRESSURES = ("kPa", "bar", "mbar", "psi", "atm")
_PARTS = ("ppm", "%")
_FROM_C, _TO_C, _STEP_C = -90, -10, 2

CHOICES = (Choice("given", "Known is", (("dew", "the dew point"), ("water", "the water content"))),)
FIELDS = (
    Field("dew_point_c", "Dew point", "degC", ("°C", "°F"), "-50", "Over ice, as meters show it. Mind the unit."),
    Field("water_ppmv", "Water content by volume", "ppm", _PARTS, "40"),
    Field("pressure_kpa", "Pressure there, absolute", "kPa", _PRESSURES, "101.325", "Gauge pressure plus 1 atm."),
    Field("reading_ppm", "Oxygen read in the purge", "ppm", _PARTS, needed=False),
    Field("reading_doubt_ppm", "The analyser's standard uncertainty", "ppm", _PARTS, needed=False),
    Field("certificate_ppm", "Oxygen on the gas's certificate", "ppm", _PARTS, needed=False),
)


@dataclass(frozen=True, slots=True)
class DewResult:
    """Dew point and water content of one gas, and its dew point once it flows out at atmospheric pressure."""

    dew_c: float
    water_ppmv: float
    at_torch_c: float | None
    picture: CurveSheet

    @property
    def dew_f(self) -> float:
        """The dew point in degrees Fahrenheit."""
        return self.dew_c * 1.8 + 32.0


@dataclass(frozen=True, slots=True)
class DewPointPage:
    """The form as filled in, with the answer, and what is said of a reading where one was given."""

    form: Form
    result: DewResult | None = None
    reading: PossibleReading | None = None
    called: str = "dew-point"


def dew_point_page(asked: Mapping[str, str]) -> DewPointPage:
    """Read the form and work it out."""
    unused = frozenset({"dew_point_c" if asked.get("given") == "water" else "water_ppmv"})
    form = read_form(FIELDS, CHOICES, asked, unused)
    if form.problems:
        return DewPointPage(form)
    try:
        return DewPointPage(form, _result(form), _reading(form))
    except UnusableInput as error:
        return DewPointPage(with_problem(form, error))


def _result(form: Form) -> DewResult:
    pressure_kpa = form.number("pressure_kpa")
    if form.chosen["given"] == "dew":
        dew_c = form.number("dew_point_c")
        water = water_ppmv(dew_c, pressure_kpa)
    else:
        water = form.number("water_ppmv")
        dew_c = dew_point_c(water, pressure_kpa)
    return DewResult(dew_c, water, _at_torch_c(water, pressure_kpa), _picture(dew_c, water, pressure_kpa))


def _at_torch_c(water: float, pressure_kpa: float) -> float | None:
    """The dew point after the gas was let down to the air's pressure; none where it already was, or is out of range."""
    if abs(pressure_kpa - ATMOSPHERE_KPA) < 0.02 * ATMOSPHERE_KPA:
        return None
    try:
        return dew_point_c(water)
    except UnusableInput:
        return None


def _reading(form: Form) -> PossibleReading | None:
    read_ppm = form.maybe("reading_ppm")
    if read_ppm is None:
        return None
    return reading_possible(read_ppm, form.maybe("reading_doubt_ppm"), form.maybe("certificate_ppm"))


def _picture(dew_c: float, water: float, pressure_kpa: float) -> CurveSheet:
    low_c, high_c = min(_FROM_C, dew_c), max(_TO_C, dew_c)
    temperatures = range(int(low_c), int(high_c) + 1, _STEP_C)
    curve = [(float(each), water_ppmv(each, pressure_kpa)) for each in temperatures]
    axes = (
        even_axis("dew point [°C]", low_c, high_c),
        powers_axis("water [ppm by volume]", min(ppm for _, ppm in curve), max(ppm for _, ppm in curve)),
    )
    return lay_out(
        f"Water content against dew point; here {dew_c:.1f} °C and {water:.3g} ppm",
        [Curve("over ice", "plain", curve)],
        axes,
        limits=[(f"{water:.3g} ppm", water)],
        moments=[(f"{dew_c:.1f} °C".replace("-", "−"), dew_c)],
        size=Size(640.0, 300.0),
    )
