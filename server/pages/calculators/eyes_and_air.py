"""Filter shade, air and room before an arc is struck: what public regulations ask, with their clause."""

from collections.abc import Mapping
from dataclasses import dataclass

from server.facts.published_safety import SafetyFigures, safety_figures
from server.pages.calculators.form import Form, read_form, with_problem
from server.pages.calculators.quantity import Field
from server.physics.errors import UnusableInput

FIELDS = (
    Field("current_a", "Highest arc current", "A", ("A",), "80", "Of a pulse, its peak."),
    Field("oxygen_percent", "Oxygen in the air you breathe", "%", ("%",), needed=False, hint="As a meter shows it."),
    Field("room_m3", "Room for each welder", "m**3", ("m³", "ft³"), needed=False),
    Field("ceiling_m", "Height of the ceiling", "m", ("m", "ft"), needed=False),
)

_FIGURES = safety_figures()


@dataclass(frozen=True, slots=True)
class EyesAndAir:
    """The least shade, none above the table; whether the air lacks oxygen and the room needs a fan, none unasked."""

    shade: int | None
    lacks_oxygen: bool | None
    needs_fresh_air: bool | None


@dataclass(frozen=True, slots=True)
class EyesAndAirPage:
    """The form as filled in, with the answer."""

    form: Form
    result: EyesAndAir | None = None
    figures: SafetyFigures = _FIGURES
    called: str = "eyes-and-air"


def eyes_and_air_page(asked: Mapping[str, str]) -> EyesAndAirPage:
    """Read the form and look it up."""
    form = read_form(FIELDS, (), asked)
    if form.problems:
        return EyesAndAirPage(form)
    try:
        return EyesAndAirPage(form, _result(form))
    except UnusableInput as error:
        return EyesAndAirPage(with_problem(form, error))


def _result(form: Form) -> EyesAndAir:
    current_a = _positive("current_a", form.number("current_a"))
    oxygen, room, ceiling = (form.maybe(name) for name in ("oxygen_percent", "room_m3", "ceiling_m"))
    if oxygen is not None and not 0.0 <= oxygen <= 100.0:
        raise UnusableInput("oxygen_percent", oxygen, "a share from 0 to 100 %", "Air holds 20.9 %.")
    for name, value in (("room_m3", room), ("ceiling_m", ceiling)):
        if value is not None:
            _positive(name, value)
    # Of a room known by one measure only the other may still ask for a fan, so it is enough for yes but not for no.
    small = _FIGURES.needs_fresh_air(
        _FIGURES.room_least_m3 if room is None else room, _FIGURES.ceiling_least_m if ceiling is None else ceiling
    )
    fan = small if small or (room is not None and ceiling is not None) else None
    return EyesAndAir(_FIGURES.least_shade(current_a), None if oxygen is None else _FIGURES.lacks_oxygen(oxygen), fan)


def _positive(name: str, value: float) -> float:
    if value <= 0.0:
        raise UnusableInput(name, value, "more than 0", "Write it without a sign.")
    return value
