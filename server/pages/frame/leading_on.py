"""Leads from a form that was taken to where its outcome stands; what had been told before says so there."""

from fastapi import Request
from fastapi.responses import RedirectResponse, Response

from server.work.told_once import ToldBefore

_TWICE = "twice"


def lead_on(address: str, told: str) -> Response:
    """Send the browser on, so that reading the page again sends no form; `told` is what the record answered."""
    page, hash_, place = address.partition("#")
    if isinstance(told, ToldBefore):
        page += f"{'&' if '?' in page else '?'}{_TWICE}=true"
    return RedirectResponse(page + hash_ + place, 303)


def came_twice(request: Request) -> bool:
    """Tell whether a page is the outcome of what had been told before."""
    return request.query_params.get(_TWICE) == "true"
