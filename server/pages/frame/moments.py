"""Reads the moments people type into a page, as the shop's wall clock shows them."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

from fastapi import Request

from server.pages.frame.shop_words import shop_words
from server.work.refusal import Refusal


class BadMoment(Refusal):
    """A moment that cannot be read."""


def typed_moment(request: Request, name: str, written: str) -> int:
    """Read what a date and time field sends as the shop's wall clock [ms, UTC]."""
    try:
        local = datetime.fromisoformat(written).replace(tzinfo=ZoneInfo(request.app.state.shop.sheet().zone))
    except ValueError:
        raise BadMoment(f"{name}: {written!r} is no moment; write day and time, as 2030-04-02T09:30") from None
    return round(local.astimezone(UTC).timestamp() * 1000)


def in_shop_words(request: Request, refused: Refusal) -> tuple[str, ...]:
    """Give what is wrong with a form, each moment in it as the shop's wall clock had it when it was typed."""
    zone = request.app.state.shop.sheet().zone
    return tuple(shop_words(each, zone) for each in refused.problems)
