"""The shop's days: which day a moment falls on in the shop's zone, and the last day of a period of calendar months."""

from calendar import monthrange
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

_DAY_MS = 86_400_000
_EPOCH = date(1970, 1, 1).toordinal()
# A zone changes its offset on a quarter of an hour at the finest, so one look-up serves all moments within it.
_QUARTER_MS = 900_000


class Days:
    """Moments [ms, UTC] to days of the shop, as date ordinals."""

    def __init__(self, zone: str) -> None:
        self._zone = ZoneInfo(zone)
        self._offsets: dict[int, int] = {}

    def day_of(self, moment_ms: int) -> int:
        """Give the shop's day a moment falls on."""
        quarter = moment_ms // _QUARTER_MS
        offset = self._offsets.get(quarter)
        if offset is None:
            offset = self._offsets[quarter] = self._offset_ms(quarter)
        return (moment_ms + offset) // _DAY_MS + _EPOCH

    def start_ms(self, day: int) -> int:
        """Give the moment a day of the shop begins."""
        midnight = datetime.fromordinal(day).replace(tzinfo=self._zone)
        return round(midnight.timestamp() * 1000)

    def _offset_ms(self, quarter: int) -> int:
        at = datetime.fromtimestamp(quarter * _QUARTER_MS / 1000, UTC).astimezone(self._zone)
        offset = at.utcoffset()
        return round(offset.total_seconds() * 1000) if offset else 0


def last_day(since: date, months: int) -> date:
    """Give the last day of so many calendar months: the same day of the month, or that month's last; included.

    >>> last_day(date(2025, 8, 31), 6)
    datetime.date(2026, 2, 28)
    """
    year, month = divmod(since.year * 12 + since.month - 1 + months, 12)
    return date(year, month + 1, min(since.day, monthrange(year, month + 1)[1]))
