"""The demo shop's calendar and clock."""

from datetime import date

import pytest

from demo_data.generator.days import (
    MONDAYS,
    WORKING_DAYS,
    at,
    clock_of,
    midnight_ms,
    months_later,
    show,
    week_of,
    weeks_later,
    working_days_later,
)  # fmt: skip
from demo_data.generator.devices import iso


def test_there_are_seventy_one_production_weeks() -> None:
    """The history has 71 production weeks of five days."""
    assert (len(MONDAYS), len(WORKING_DAYS)) == (71, 355)
    assert week_of(date(2025, 1, 10)) == 0


def test_closed_weeks_are_stepped_over() -> None:
    """A week later and a working day later lie behind a closed week."""
    assert weeks_later(date(2025, 4, 9), 1) == date(2025, 4, 23)
    assert working_days_later(date(2025, 4, 11), 1) == date(2025, 4, 21)
    assert working_days_later(date(2025, 4, 21), -1) == date(2025, 4, 11)


@pytest.mark.parametrize(
    ("day", "clock", "utc"),
    [
        ("2025-03-28", "13:22", "2025-03-28T12:22:00.000Z"),
        ("2025-03-31", "13:22", "2025-03-31T11:22:00.000Z"),
        ("2025-10-24", "07:30", "2025-10-24T05:30:00.000Z"),
        ("2025-10-27", "07:30:05", "2025-10-27T06:30:05.000Z"),
        ("2026-03-30", "00:00", "2026-03-29T22:00:00.000Z"),
    ],
)
def test_the_clock_follows_summer_time(day: str, clock: str, utc: str) -> None:
    """Summer time begins on the last Sunday of March and ends on the last of October; there and back is the same."""
    moment = at(date.fromisoformat(day), clock)
    assert iso(moment) == utc
    assert clock_of(moment).strftime("%H:%M:%S").startswith(clock)
    assert show(moment) == f"{day}T{clock[:5]}"


def test_the_day_of_the_change_has_its_own_midnights() -> None:
    """The last Sunday of March has 23 hours, that of October 25."""
    spring, autumn = date(2025, 3, 30), date(2025, 10, 26)
    assert midnight_ms(date(2025, 3, 31)) - midnight_ms(spring) == 23 * 3_600_000
    assert midnight_ms(date(2025, 10, 27)) - midnight_ms(autumn) == 25 * 3_600_000


def test_six_months_end_on_the_same_day_or_the_months_last() -> None:
    """Months are counted by the calendar."""
    assert months_later(date(2025, 5, 5), 6) == date(2025, 11, 5)
    assert months_later(date(2025, 8, 31), 6) == date(2026, 2, 28)
