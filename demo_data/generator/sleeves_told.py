"""Writes the life of each rod sleeve: opened with its rod ends read, checked after some rods, closed and weighed."""

from datetime import date

from demo_data.generator.days import at, clock_of, working_days_later
from demo_data.generator.numbers import value
from demo_data.generator.shop import TABLETS, Shop
from demo_data.generator.sleeves import Sleeve
from demo_data.generator.story import Story
from demo_data.generator.weld import SECOND

_FIRST_CHECK = 6


def tell_sleeves(shop: Shop, story: Story, days: set[date]) -> None:
    """Write every sleeve that was open on a day that is told, from its opening on."""
    for sleeve in shop.sleeves:
        if _touches(sleeve, days):
            _tell(shop, story, sleeve)


def _touches(sleeve: Sleeve, days: set[date]) -> bool:
    opened = clock_of(sleeve.opened).date()
    closed = clock_of(sleeve.closed).date() if sleeve.closed else date.max
    return any(opened <= day <= closed for day in days)


def _tell(shop: Shop, story: Story, sleeve: Sleeve) -> None:
    dice = shop.dice("sleeve", sleeve.code)
    who, tablet = ("W01" if sleeve.bench == "B1" else "W02"), TABLETS[sleeve.bench]
    named = {"sleeve": sleeve.code, "bench": sleeve.bench}
    unread = ("rod ends", sleeve.code) in shop.plan.skipped
    ends = None if unread else sleeve.filler_class
    story.tell(sleeve.opened, tablet, who, "sleeve", **named, act="opened", rod_ends=ends)
    checked = at(working_days_later(clock_of(sleeve.opened).date(), _FIRST_CHECK), "07:46") + dice.whole(0, 90) * SECOND
    if (sleeve.closed is None or checked < sleeve.closed) and not unread:
        story.tell(checked, tablet, who, "sleeve", **named, act="checked", rod_ends=sleeve.filler_class)
    if sleeve.closed:
        left = value("remnant", f"{dice.between(2, 11):.1f}", "read", "SC-1")
        story.tell(sleeve.closed, tablet, who, "sleeve", **named, act="closed", values=left)
