"""Heat input of a steady or pulsed arc: arc energy per length, and apart from it what the metal is taken to get."""

from collections.abc import Mapping
from dataclasses import dataclass

from server.pages.calculators.form import Choice, Form, read_form, with_problem
from server.pages.calculators.heat_input_picture import HeatPicture, heat_picture
from server.pages.calculators.quantity import Field
from server.physics.arc_energy import arc_energy_of_bead_j_per_mm
from server.physics.energy_doubt import arc_energy_doubt
from server.physics.errors import UnusableInput
from server.physics.heat_input import heat_input_j_per_mm
from server.physics.inputs import between, positive
from server.physics.pulse import pulse_rms
from server.physics.pulse_power import pulse_means_product_w, pulse_power_w

_SPEEDS = ("mm/min", "in/min", "cm/min", "mm/s")
_LENGTHS = ("mm", "cm", "in")
_PULSE = ("peak_a", "base_a", "peak_v", "base_v", "duty")
_STEADY = ("amps", "volts")
_BEAD = ("bead_mm", "arc_s")
_DOUBTS = ("volts_doubt", "amps_doubt", "length_doubt", "time_doubt")

CHOICES = (
    Choice("arc", "The arc", (("steady", "steady"), ("pulsed", "pulsed"))),
    Choice("by", "Travel known as", (("speed", "a speed"), ("bead", "bead length and arc time"))),
)
FIELDS = (
    Field("amps", "Amps", "A", ("A",), "50"),
    Field("volts", "Volts at the arc", "V", ("V",), "10", "Close to the torch."),
    Field("peak_a", "Peak amps", "A", ("A",), "80"),
    Field("base_a", "Background amps", "A", ("A",), "20"),
    Field("peak_v", "Volts at the peak", "V", ("V",), "11", "Of this level, not the meter's mean."),
    Field("base_v", "Volts in the background", "V", ("V",), "9"),
    Field("duty", "Peak on-time", "dimensionless", ("%",), "40"),
    Field("travel_mm_per_min", "Travel speed", "mm/min", _SPEEDS, "90"),
    Field("bead_mm", "Bead length", "mm", _LENGTHS, "60"),
    Field("arc_s", "Arc time", "s", ("s", "min"), "40"),
    Field("thermal_efficiency", "Thermal efficiency k", "dimensionless", ("%",), "60", "60 % by convention for TIG."),
    Field("volts_doubt", "Volts", "dimensionless", ("%",), needed=False),
    Field("amps_doubt", "Amps", "dimensionless", ("%",), needed=False),
    Field("length_doubt", "Length or speed", "dimensionless", ("%",), needed=False),
    Field("time_doubt", "Arc time", "dimensionless", ("%",), needed=False),
)


@dataclass(frozen=True, slots=True)
class MeterReading:
    """What a meter that takes volts and amps apart would make of a pulsed arc, and how far off it is."""

    means_w: float
    means_off_percent: float
    rms_w: float
    rms_off_percent: float


@dataclass(frozen=True, slots=True)
class HeatResult:
    """The answer; the doubt is a standard uncertainty as a share, none where nobody said how sure the inputs are."""

    power_w: float
    arc_energy_j_per_mm: float
    heat_input_j_per_mm: float
    efficiency: float
    doubt: float | None
    meter: MeterReading | None
    picture: HeatPicture


@dataclass(frozen=True, slots=True)
class HeatInputPage:
    """The form as filled in, with the answer where there is one."""

    form: Form
    result: HeatResult | None = None
    called: str = "heat-input"

    @property
    def doubted(self) -> bool:
        """Tell whether somebody said how sure the inputs are, or tried to."""
        return any(self.form.at(name).written for name in _DOUBTS)


def heat_input_page(asked: Mapping[str, str]) -> HeatInputPage:
    """Read the form and work it out."""
    form = read_form(FIELDS, CHOICES, asked, _unused(asked))
    if form.problems:
        return HeatInputPage(form)
    try:
        return HeatInputPage(form, _result(form))
    except UnusableInput as error:
        return HeatInputPage(with_problem(form, error, {"energy_j": "arc_s"}))


def _unused(asked: Mapping[str, str]) -> frozenset[str]:
    arc = _STEADY if asked.get("arc") == "pulsed" else _PULSE
    travel = ("travel_mm_per_min",) if asked.get("by") == "bead" else (*_BEAD, "time_doubt")
    return frozenset((*arc, *travel))


def _result(form: Form) -> HeatResult:
    pulsed = form.chosen["arc"] == "pulsed"
    power_w = _pulse_w(form) if pulsed else _steady_w(form)
    per_mm = _per_mm(form, power_w)
    share = between("thermal_efficiency", form.number("thermal_efficiency"), 0.01, 1.0, "Write 60 % as 60 %, or 0.6.")
    heat = heat_input_j_per_mm(per_mm, share)
    meter = _meter(form, power_w) if pulsed else None
    return HeatResult(power_w, per_mm, heat, share, _doubt(form), meter, heat_picture(form, power_w, share))


def _steady_w(form: Form) -> float:
    volts = between("volts", form.number("volts"), 0.0, 200.0)
    return volts * between("amps", form.number("amps"), 0.0, 1000.0)


def _pulse_w(form: Form) -> float:
    peak_a, base_a, peak_v, base_v, duty = (form.number(name) for name in _PULSE)
    return pulse_power_w(peak_v, peak_a, base_v, base_a, duty)


def _per_mm(form: Form, power_w: float) -> float:
    no_travel = "A tack or a stop has no travel: record its joules and its arc time instead."
    if form.chosen["by"] == "bead":
        energy_j = power_w * positive("arc_s", form.number("arc_s"))
        return arc_energy_of_bead_j_per_mm(energy_j, form.number("bead_mm"))
    return power_w * 60.0 / positive("travel_mm_per_min", form.number("travel_mm_per_min"), no_travel)


def _meter(form: Form, power_w: float) -> MeterReading:
    peak_a, base_a, peak_v, base_v, duty = (form.number(name) for name in _PULSE)
    means_w = pulse_means_product_w(peak_v, peak_a, base_v, base_a, duty)
    rms_w = pulse_rms(peak_v, base_v, duty) * pulse_rms(peak_a, base_a, duty)
    positive("peak_a", power_w, "An arc without power has no heat input.")
    return MeterReading(means_w, 100.0 * (means_w / power_w - 1.0), rms_w, 100.0 * (rms_w / power_w - 1.0))


def _doubt(form: Form) -> float | None:
    told = [form.maybe(name) for name in _DOUBTS]
    if all(each is None for each in told):
        return None
    shares = (
        between(name, each or 0.0, 0.0, 1.0, "Write 2 % as 2 %.") for name, each in zip(_DOUBTS, told, strict=True)
    )
    return arc_energy_doubt(*shares)
