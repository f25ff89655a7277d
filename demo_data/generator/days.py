"""The shop's calendar: production weeks, closed weeks, working days, and its clock against UTC."""

import calendar
from datetime import UTC, date, datetime, timedelta
from functools import cache

FIRST, LAST = date(2025, 1, 6), date(2026, 6, 26)
CLOSED = (
    (date(2025, 4, 14), date(2025, 4, 18)),
    (date(2025, 7, 21), date(2025, 8, 1)),
    (date(2025, 12, 22), date(2026, 1, 2)),
    (date(2026, 4, 6), date(2026, 4, 10)),
)
MINUTE = 60_000
HOUR = 60 * MINUTE
DAY = timedelta(days=1)


@cache
def working(day: date) -> bool:
    """Say whether the shop works that day."""
    return day.weekday() < 5 and not any(first <= day <= last for first, last in CLOSED)


def _mondays() -> tuple[date, ...]:
    weeks = range((LAST - FIRST).days // 7 + 1)
    return tuple(monday for week in weeks if working(monday := FIRST + timedelta(weeks=week)))


MONDAYS = _mondays()
WORKING_DAYS = tuple(
    day for number in range((LAST - FIRST).days + 1) if working(day := FIRST + number * DAY)
)
_WEEK_OF = {monday: week for week, monday in enumerate(MONDAYS)}


def week_of(day: date) -> int:
    """Give the production week a day lies in; a day of a closed week is an error."""
    return _WEEK_OF[day - day.weekday() * DAY]


def weeks_later(day: date, weeks: int) -> date:
    """Give the same weekday this many production weeks later.

    >>> weeks_later(date(2025, 4, 7), 1)
    datetime.date(2025, 4, 21)
    """
    return MONDAYS[week_of(day) + weeks] + day.weekday() * DAY


@cache
def working_days_later(day: date, count: int) -> date:
    """Give the working day this many working days later, or earlier when the count is negative."""
    step = DAY if count > 0 else -DAY
    while count:
        day += step
        if working(day):
            count -= 1 if count > 0 else -1
    return day


def months_later(day: date, months: int) -> date:
    """Give the same day of a later month, or that month's last day."""
    month = day.month - 1 + months
    year, month = day.year + month // 12, month % 12 + 1
    return date(year, month, min(day.day, calendar.monthrange(year, month)[1]))


@cache
def midnight_ms(day: date) -> int:
    """Give the UTC moment of the shop's midnight [ms]; summer time by the EU rule, so no time zone files are needed."""
    hours = 2 if _last_sunday(day.year, 3) < day <= _last_sunday(day.year, 10) else 1
    return round(datetime(day.year, day.month, day.day, tzinfo=UTC).timestamp() * 1000) - hours * HOUR


def _last_sunday(year: int, month: int) -> date:
    last = date(year, month, 31)
    return last - (last.weekday() + 1) % 7 * DAY


def at(day: date, clock: str) -> int:
    """Give the UTC moment [ms] of a time on the shop's clock, as 13:22 or 14:01:04."""
    hours, minutes, *seconds = map(int, clock.split(":"))
    return midnight_ms(day) + hours * HOUR + minutes * MINUTE + (seconds[0] if seconds else 0) * 1000


def clock_of(moment_ms: int) -> datetime:
    """Give the shop's own day and time of a UTC moment, without a zone."""
    day = datetime.fromtimestamp(moment_ms / 1000, UTC).date()
    for near in (day, day + DAY, day - DAY):
        if midnight_ms(near) <= moment_ms < midnight_ms(near + DAY):
            return datetime(near.year, near.month, near.day) + timedelta(milliseconds=moment_ms - midnight_ms(near))  # noqa: DTZ001
    raise ValueError(f"{moment_ms} lies on no day")


def show(moment_ms: int) -> str:
    """Write a moment as the answer key does: shop time, to the minute."""
    return clock_of(moment_ms).strftime("%Y-%m-%dT%H:%M")
