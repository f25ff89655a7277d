"""The shop's days and calendar months."""

from datetime import UTC, date, datetime

import pytest

from server.occasions.days import Days, last_day


def ms(text: str) -> int:
    return round(datetime.fromisoformat(text).replace(tzinfo=UTC).timestamp() * 1000)


@pytest.mark.parametrize(
    ("moment", "day"),
    [("2025-03-29T22:59:59", "2025-03-29"), ("2025-03-29T23:00:00", "2025-03-30"),
     ("2025-03-30T21:59:59", "2025-03-30"), ("2025-03-30T22:00:00", "2025-03-31"),
     ("2025-10-26T22:59:59", "2025-10-26"), ("2025-10-26T23:00:00", "2025-10-27")],
)  # fmt: skip
def test_a_day_begins_at_the_shops_midnight_also_when_its_clock_is_put_forward_or_back(moment: str, day: str):
    """In a zone an hour ahead, two in summer, the day turns at 23:00 UTC, then at 22:00, then at 23:00 again."""
    assert Days("Europe/Copenhagen").day_of(ms(moment)) == date.fromisoformat(day).toordinal()


def test_a_day_starts_where_it_turns():
    """The start of a day is its first moment: the millisecond before belongs to the day before."""
    days = Days("Africa/Nairobi")
    day = date(2031, 3, 10).toordinal()
    start = days.start_ms(day)
    assert (days.day_of(start), days.day_of(start - 1)) == (day, day - 1)


@pytest.mark.parametrize(
    ("since", "months", "until"),
    [("2025-05-05", 6, "2025-11-05"), ("2025-08-31", 6, "2026-02-28"), ("2023-08-31", 6, "2024-02-29"),
     ("2025-11-30", 3, "2026-02-28"), ("2025-12-18", 3, "2026-03-18"), ("2025-01-10", 12, "2026-01-10")],
)  # fmt: skip
def test_a_period_of_calendar_months_ends_on_the_same_day_or_the_months_last(since: str, months: int, until: str):
    """Six months from 31 August end on the last day of February, whether that is the 28th or the 29th."""
    assert last_day(date.fromisoformat(since), months) == date.fromisoformat(until)
