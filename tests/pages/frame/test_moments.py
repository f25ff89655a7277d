"""A moment typed into a page is what the shop's clock showed, and what it never showed is refused in words."""

from types import SimpleNamespace
from typing import Any

import pytest

from server.facts.moment import show_moment
from server.pages.frame.moments import BadMoment, typed_moment


def typed(written: str, zone: str = "Europe/Berlin") -> int:
    sheet = SimpleNamespace(zone=zone)
    shop: Any = SimpleNamespace(app=SimpleNamespace(state=SimpleNamespace(shop=SimpleNamespace(sheet=lambda: sheet))))
    return typed_moment(shop, "reported", written)


def test_it_is_read_on_the_shops_clock():
    """The same words are another moment in another zone."""
    assert show_moment(typed("2026-01-05T10:00")) == "2026-01-05T09:00:00.000Z"
    assert show_moment(typed("2026-01-05T10:00", "UTC")) == "2026-01-05T10:00:00.000Z"


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("", "is no moment"),
        ("2027-02-29T10:00", "is no moment"),
        ("2026-01-05T25:00", "is no moment"),
        ("0026-01-05T10:00", "is in the year 26; write the year with all its four digits"),
        ("0001-01-01T00:00", "is in the year 1;"),
        ("2026-03-29T02:30", "was never on the clock"),
    ],
)
def test_what_no_clock_showed_is_refused(written: str, said: str):
    """It names the field, what was written and what to write instead."""
    with pytest.raises(BadMoment, match=f"^reported: '{written}' {said}"):
        typed(written)
