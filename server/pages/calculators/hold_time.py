"""How long to hold the gas after the arc, as advice with its band; one measured hold time calibrates it for a shop."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from server.facts.published_shielding import ShieldingFigures, shielding_figures
from server.pages.calculators.form import Choice, Form, read_form, with_problem
from server.pages.calculators.hold_time_picture import HoldPicture, hold_picture
from server.pages.calculators.quantity import Field
from server.physics.band import Band
from server.physics.cooling_weld import TubeWeld, doubts_of, meeting_wall_mm
from server.physics.errors import UnusableInput
from server.physics.hold_time import hold_factor, hold_time_s
from server.physics.hot_length import hot_length_mm
from server.statistics.conformity import Conformity, conform

_ENERGIES = ("J/mm", "kJ/mm", "J/in", "kJ/in")
_SPEEDS = ("mm/min", "in/min", "cm/min", "mm/s")
_LENGTHS = ("mm", "in", "thou")
_TIMES = ("s", "min")
_TRIAL = ("trial_heat", "trial_travel", "trial_bead", "trial_wall")
_OF_TRIAL = dict(zip(("heat_input_j_per_mm", "travel_mm_per_min", "bead_mm", "wall_mm"), _TRIAL, strict=True))

CHOICES = (
    Choice("shape", "The seam", (("butt", "butt: two walls lead heat away"), ("tee", "tube landed on tube: three"))),
    Choice(
        "known",
        "What the shop has measured",
        (("none", "no hold time yet"), ("measured", "one hold time"), ("factor", "its factor is known")),
    ),
)
FIELDS = (
    Field("heat_input_j_per_mm", "Heat input, k in it", "J/mm", _ENERGIES, "100", "Not arc energy."),
    Field("travel_mm_per_min", "Travel speed", "mm/min", _SPEEDS, "120"),
    Field("bead_mm", "Bead length", "mm", _LENGTHS, "25"),
    Field("wall_mm", "Wall", "mm", _LENGTHS, "0.9"),
    Field("od_mm", "Outside diameter of the tube", "mm", _LENGTHS, "34.9", "Empty for a flat seam.", needed=False),
    Field("start_c", "Metal before the arc", "degC", ("°C", "°F"), "20"),
    Field("limit_c", "Hold until all metal is under", "degC", ("°C", "°F"), "427", "Your procedure's figure."),
    Field("measured_s", "Measured hold, arc-off to the limit", "s", _TIMES, "19", "At the hottest place, mid-bead."),
    Field("trial_heat", "Heat input of that bead", "J/mm", _ENERGIES, hint="Empty: as above.", needed=False),
    Field("trial_travel", "Its travel speed", "mm/min", _SPEEDS, hint="Empty: as above.", needed=False),
    Field("trial_bead", "Its length", "mm", _LENGTHS, hint="Empty: as above.", needed=False),
    Field("trial_wall", "Its wall", "mm", _LENGTHS, hint="Empty: as above.", needed=False),
    Field("backside_c", "Hottest backside shown, without gas", "degC", ("°C", "°F"), needed=False),
    Field("backside_doubt", "That thermometer's standard uncertainty", "K", ("K",), needed=False),
    Field("shop_factor", "The shop's factor", "dimensionless", ("×",), "1.2", "From one measured hold."),
)


_FIGURES = shielding_figures()


@dataclass(frozen=True, slots=True)
class HoldResult:
    """The answer: hold time and hot length with their bands, the shop's factor, and what speaks against the figure."""

    hold_s: Band
    hot_mm: Band
    factor: float | None
    doubts: tuple[str, ...]
    limit_c: float
    picture: HoldPicture
    backside: Conformity | None = None
    """How a backside without gas stands against the figure it has to stay under; none when nobody asked."""

    @property
    def least_s(self) -> int:
        """The high end of the hold, to the next whole second."""
        return math.ceil(self.hold_s.high)

    @property
    def longest_mm(self) -> int:
        """The high end of the hot length, to the next whole millimetre."""
        return math.ceil(self.hot_mm.high)


@dataclass(frozen=True, slots=True)
class HoldTimePage:
    """The form as filled in, with the answer where there is one."""

    form: Form
    result: HoldResult | None = None
    called: str = "hold-time"
    figures: ShieldingFigures = _FIGURES

    @property
    def other_bead(self) -> bool:
        """Tell whether the hold was measured on another bead than the one asked about."""
        return any(self.form.at(name).written for name in _TRIAL)


def hold_time_page(asked: Mapping[str, str]) -> HoldTimePage:
    """Read the form and work it out."""
    form = read_form(FIELDS, CHOICES, asked, _unused(asked))
    if form.problems:
        return HoldTimePage(form)
    called: dict[str, str] = {"around_mm": "od_mm", "walls_mm": "wall_mm"}
    try:
        weld = _weld(form, {})
        weld.limit_rise_k(form.number("limit_c"))
        called |= {field: trial for field, trial in _OF_TRIAL.items() if form.maybe(trial) is not None}
        return HoldTimePage(form, _result(form, weld))
    except UnusableInput as error:
        return HoldTimePage(with_problem(form, error, called))


def _unused(asked: Mapping[str, str]) -> frozenset[str]:
    known = asked.get("known", "none")
    trial = () if known == "measured" else ("measured_s", *_TRIAL)
    return frozenset(trial if known == "factor" else (*trial, "shop_factor"))


def _weld(form: Form, instead: Mapping[str, str]) -> TubeWeld:
    """The weld of the form; `instead` names the field that stands for another where something is written in it."""

    def number(name: str) -> float:
        found = form.maybe(instead[name]) if name in instead else None
        return form.number(name) if found is None else found

    wall_mm = number("wall_mm")
    sheets = 3 if form.chosen["shape"] == "tee" else 2
    return TubeWeld(
        heat_input_j_per_mm=number("heat_input_j_per_mm"),
        travel_mm_per_min=number("travel_mm_per_min"),
        bead_mm=number("bead_mm"),
        wall_mm=meeting_wall_mm([wall_mm] * sheets),
        around_mm=_around_mm(form.maybe("od_mm"), wall_mm),
        start_c=form.number("start_c"),
    )


def _around_mm(od_mm: float | None, wall_mm: float) -> float | None:
    if od_mm is None:
        return None
    if od_mm <= 2.0 * wall_mm:
        remedy = "Check diameter and wall, or leave the diameter empty for a flat seam."
        raise UnusableInput("od_mm", od_mm, f"more than two walls, {2.0 * wall_mm:g} mm", remedy)
    return math.pi * (od_mm - wall_mm)


def _result(form: Form, weld: TubeWeld) -> HoldResult:
    limit_c = form.number("limit_c")
    factor = _factor(form, limit_c)
    hold = hold_time_s(weld, limit_c, factor)
    return HoldResult(
        hold_s=hold,
        hot_mm=hot_length_mm(weld, limit_c),
        factor=factor,
        doubts=doubts_of(weld, limit_c),
        limit_c=limit_c,
        picture=hold_picture(weld, limit_c, hold, factor),
        backside=_backside(form),
    )


def _backside(form: Form) -> Conformity | None:
    shown_c, doubt_k = form.maybe("backside_c"), form.maybe("backside_doubt")
    if shown_c is None:
        return None
    if doubt_k is not None and doubt_k < 0.0:
        raise UnusableInput("backside_doubt", doubt_k, "0 or more", "Write it without a sign.")
    if _FIGURES.needs_backing_gas(shown_c):
        return Conformity.OUTSIDE
    return conform(shown_c, None, _FIGURES.backside_under_c, doubt_k)


def _factor(form: Form, limit_c: float) -> float | None:
    known = form.chosen["known"]
    if known == "measured":
        return hold_factor(_weld(form, _OF_TRIAL), limit_c, form.number("measured_s"))
    return form.number("shop_factor") if known == "factor" else None
