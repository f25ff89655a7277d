"""Reads the moments people type into a page, as the shop's wall clock shows them."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

from fastapi import Request

from server.pages.frame.shop_words import shop_words
from server.work.refusal import Refusal

_EARLIEST_YEAR = 1900


class BadMoment(Refusal):
    """A moment that cannot be read."""


def typed_moment(request: Request, name: str, written: str) -> int:
    """Read what a date and time field sends as the shop's wall clock [ms, UTC]."""
    zone = ZoneInfo(request.app.state.shop.sheet().zone)
    try:
        local = datetime.fromisoformat(written).replace(tzinfo=zone)
    except ValueError:
        raise BadMoment(f"{name}: {written!r} is no moment; write day and time, as 2030-04-02T09:30") from None
    if local.year < _EARLIEST_YEAR:
        raise BadMoment(f"{name}: {written!r} is in the year {local.year}; write the year with all its four digits")
    moment = local.astimezone(UTC)
    if moment.astimezone(zone).replace(tzinfo=None) != local.replace(tzinfo=None):
        raise BadMoment(f"{name}: {written!r} was never on the clock, which was put forward; write the hour after it")
    return round(moment.timestamp() * 1000)


def in_shop_words(request: Request, refused: Refusal) -> tuple[str, ...]:
    """Give what is wrong with a form, each moment in it as the shop's wall clock had it when it was typed."""
    zone = request.app.state.shop.sheet().zone
    return tuple(shop_words(each, zone) for each in refused.problems)
