"""Purge of a frame design: each member's oxygen against time, the slowest named, and what can go wrong named too."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from server.facts.design import Design
from server.pages.calculators.form import Form, with_problem
from server.pages.calculators.purge_form import Chosen, choose_setup, purge_form
from server.pages.calculators.purge_members import MemberLine, duration_words, member_lines
from server.pages.calculators.purge_network import form_network
from server.pages.calculators.purge_picture import PurgePicture, curve_picture, frame_picture
from server.pages.calculators.quantity import Problem
from server.physics.errors import SealedPurge, UnreachableMember, UnusableInput
from server.physics.purge_forecast import PurgeForecast, forecast_purge
from server.physics.purge_hole import blow_through_warning
from server.physics.purge_network import PurgeNetwork
from server.physics.purge_reading import KnownOxygen, known_oxygen

_CURVE_POINTS = 121
_LONGEST_CURVE_S = 3600.0
_SHORTEST_CURVE_S = 30.0


@dataclass(frozen=True, slots=True)
class PurgeResult:
    """The answer: members slowest first, the pressure, its warning, and a reading where one was given."""

    members: tuple[MemberLine, ...]
    target_ppm: float
    pressure_pa: float
    warning: str | None
    reading: KnownOxygen | None
    gas_ppm: float
    picture: PurgePicture

    @property
    def slowest(self) -> MemberLine:
        """The member to wait for."""
        return self.members[0]

    @staticmethod
    def said(seconds: float) -> str:
        """Write a wait as it is said at the bench."""
        return duration_words(seconds)


@dataclass(frozen=True, slots=True)
class PurgePage:
    """The form as filled in, the frame's picture, and the answer where there is one."""

    form: Form
    chosen: Chosen
    designs_known: bool
    frame: PurgePicture | None = None
    result: PurgeResult | None = None
    called: str = "purge"


def purge_page(designs: Sequence[Design], asked: Mapping[str, str], target: Mapping[str, tuple[str, str]]) -> PurgePage:
    """Read the form and work it out; `target` gives for a design the oxygen its procedures ask for, and the source."""
    chosen = choose_setup(designs, asked)
    wanted = target.get(chosen.drawn.partition("/")[0], ("20", "Your procedure's figure."))
    form = purge_form(chosen, designs, asked, wanted)
    page = PurgePage(form, chosen, bool(designs))
    if form.problems:
        return page
    try:
        network = form_network(chosen, form)
        return replace(page, result=_result(chosen, form, network))
    except UnreachableMember as error:
        shut = frozenset(str(error.value).split(", "))
        return replace(page, form=_told(form, chosen, error, "No gas reaches"), frame=frame_picture(chosen, "", shut))
    except SealedPurge as error:
        return replace(page, form=_told(form, chosen, error, "No vent from"))
    except UnusableInput as error:
        return replace(page, form=with_problem(form, error, {error.field: error.field.rpartition(": ")[2]}))


def _told(form: Form, chosen: Chosen, error: UnusableInput, words: str) -> Form:
    names = ", ".join(chosen.title(name) for name in str(error.value).split(", "))
    return replace(form, beside=(Problem("holes", words, names, error.expected, error.remedy),))


def _result(chosen: Chosen, form: Form, network: PurgeNetwork) -> PurgeResult:
    target_ppm = form.number("target_ppm")
    until_s = _until_s(forecast_purge(network, target_ppm, points=2))
    forecast = forecast_purge(network, target_ppm, until_s, _CURVE_POINTS)
    members = member_lines(chosen, network, forecast)
    reading = form.maybe("reading_ppm")
    return PurgeResult(
        members=members,
        target_ppm=target_ppm,
        pressure_pa=forecast.inlet_pressure_pa,
        warning=blow_through_warning(forecast.inlet_pressure_pa),
        reading=None if reading is None else known_oxygen(target_ppm, reading),
        gas_ppm=form.number("oxygen_ppm"),
        picture=replace(frame_picture(chosen, forecast.slowest), curves=curve_picture(members, forecast, target_ppm)),
    )


def _until_s(forecast: PurgeForecast) -> float:
    """Long enough to see the slowest member arrive, but not so long that all others vanish at the left edge."""
    waits = [wait for wait in forecast.clear_s.values() if wait is not None]
    longest = max(waits, default=600.0)
    if len(waits) < len(forecast.clear_s):
        longest *= 2.0
    return min(max(1.25 * longest, _SHORTEST_CURVE_S), _LONGEST_CURVE_S)
