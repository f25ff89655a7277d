"""The calculators' addresses: each as a whole page, and its answer alone for the script; nobody needs to sign in."""

from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from typing import Protocol
from zoneinfo import ZoneInfo

from fastapi import APIRouter, HTTPException, Request
from fastapi.responses import HTMLResponse

from server.pages.calculators.asked_oxygen import oxygen_asked
from server.pages.calculators.dew_point import dew_point_page
from server.pages.calculators.eyes_and_air import eyes_and_air_page
from server.pages.calculators.form import Form
from server.pages.calculators.heat_input import heat_input_page
from server.pages.calculators.hold_time import hold_time_page
from server.pages.calculators.imperfections import imperfections_page
from server.pages.calculators.index import CalculatorList
from server.pages.calculators.purge import PurgePage, purge_page
from server.pages.frame.rendering import show

router = APIRouter(prefix="/calculators", include_in_schema=False)


class Page(Protocol):
    """What every calculator's page has."""

    @property
    def form(self) -> Form:
        """The form as filled in."""


def _purge(request: Request) -> PurgePage:
    with request.app.state.record.reads() as reads:
        registers = reads.registers()
    today = datetime.now(UTC).astimezone(ZoneInfo(request.app.state.shop.zone)).date()
    designs = tuple(registers.designs.values())
    return purge_page(designs, request.query_params, oxygen_asked(designs, registers.procedures.values(), today))


def _asking(page: Callable[[Mapping[str, str]], Page]) -> Callable[[Request], Page]:
    return lambda request: page(request.query_params)


_PAGES: dict[str, Callable[[Request], Page]] = {
    "heat-input": _asking(heat_input_page),
    "purge": _purge,
    "hold-time": _asking(hold_time_page),
    "dew-point": _asking(dew_point_page),
    "imperfections": _asking(imperfections_page),
    "eyes-and-air": _asking(eyes_and_air_page),
}


@router.get("")
def list_calculators(request: Request) -> HTMLResponse:
    """List the calculators."""
    return show(request, "calculators/index.html", CalculatorList())


@router.get("/{called}")
def whole_page(request: Request, called: str) -> HTMLResponse:
    """Show a calculator, with its answer to what the address says."""
    page = _page(request, called)
    return show(request, f"calculators/{called.replace('-', '_')}.html", page, 422 if page.form.problems else 200)


@router.get("/{called}/result")
def answer_alone(request: Request, called: str) -> HTMLResponse:
    """Give the answer alone, which the script puts in the old one's place."""
    page = _page(request, called)
    return show(request, f"calculators/{called.replace('-', '_')}_result.html", page)


def _page(request: Request, called: str) -> Page:
    if called not in _PAGES:
        raise HTTPException(404, f"There is no calculator {called!r}; there are {', '.join(_PAGES)}.")
    return _PAGES[called](request)
