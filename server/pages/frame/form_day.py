"""A day as a form sends it."""

from datetime import date

from server.occasions.days import Days


def end_of_day_ms(day: str, zone: str) -> int | None:
    """Give the last millisecond of a day of the shop [ms, UTC]; none when it is no day."""
    try:
        return Days(zone).start_ms(date.fromisoformat(day).toordinal() + 1) - 1
    except ValueError:
        return None
