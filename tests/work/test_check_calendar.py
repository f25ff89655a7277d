"""The calendar shows what was made, what failed and what was due and missing, on the shop's own days."""

from collections.abc import Iterator
from datetime import date, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from server.record.book_of_lines import Record
from server.work.check_calendar import Calendar, Mark, check_calendar
from tests.story.log import DAY, Tablet, moment
from tests.work.small_shop import a_pass, open_shop, send, tell

EVERY_SHIFT = {"kind": "acceptance", "id": "beads", "name": "torch_bead_every", "unit": "shifts", "value": "1"}


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    tell(made, **EVERY_SHIFT, source="shop rule", valid_from="2020-01-01")
    yield made
    made.close()


def told_day(record: Record, clock: str) -> date:
    """The shop's day on which a moment of the story falls."""
    with record.reads() as reads:
        known = reads.registers().shop
    return datetime.fromisoformat(moment(clock)).astimezone(ZoneInfo(known.zone if known else "UTC")).date()


def laid(record: Record, month: date | None = None) -> Calendar:
    with record.reads() as reads:
        return check_calendar(reads, month)


def marks(calendar: Calendar, plan: str, thing: str) -> dict[int, Mark]:
    return next((row.marks for row in calendar.rows if (row.plan, row.thing) == (plan, thing)), {})


def test_a_shift_without_its_bead_is_missing(shop: Record):
    """Welding on a torch line on which no bead was run that day shows as due and not made."""
    send(shop, a_pass(Tablet("SLATE"), "1:00"))
    day = told_day(shop, "1:00")
    calendar = laid(shop)
    assert calendar.first == day.replace(day=1)
    assert marks(calendar, "torch_bead_every", "N-T")[day.day] == Mark("missing")


def test_a_bead_that_was_made_leads_to_its_entry(shop: Record):
    """With a good bead the day is good and names the entry; nothing is missing."""
    slate = Tablet("SLATE")
    send(shop, slate.tell("0:30", "bead", line="N-T", result="good"), a_pass(slate, "0:40"))
    day = told_day(shop, "0:30")
    assert marks(laid(shop), "torch_bead_every", "N-T") == {day.day: Mark("good", "SLATE:b1:1")}


def test_a_failed_bead_is_not_hidden_by_a_good_one_after_it(shop: Record):
    """Failed, then good within the same hour: the day shows the failure."""
    slate = Tablet("SLATE")
    failed = slate.tell("0:30", "bead", line="N-T", result="failed")
    send(shop, failed, slate.tell("0:31", "bead", line="N-T", result="good"))
    assert marks(laid(shop), "torch_bead_every", "N-T")[told_day(shop, "0:30").day].state == "failed"


def test_another_month_is_empty(shop: Record):
    """A month in which nothing was welded or checked has no rows, and the newest month is still on offer."""
    send(shop, a_pass(Tablet("SLATE"), "1:00"))
    calendar = laid(shop, date(2031, 1, 1) if DAY.year != 2031 else date(2032, 1, 1))
    assert calendar.rows == ()
    assert calendar.length == 31
    assert told_day(shop, "1:00").strftime("%Y-%m") in calendar.months


def test_it_opens_on_the_newest_month_with_something_in_it(shop: Record):
    """A picture or a note long after the last weld leads to no empty month."""
    slate = Tablet("SLATE")
    send(shop, a_pass(slate, "1:00"), slate.tell("1500:00", "problem", words="a lamp is out"))
    assert laid(shop).first == told_day(shop, "1:00").replace(day=1)
    assert laid(shop).rows
