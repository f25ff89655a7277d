"""Which PINs anybody would try first: repeats, runs, lines of the keypad, days, and the person's own number."""

import re
from itertools import pairwise

_COLUMNS = ("147", "258", "369", "159", "357", "123", "456", "789")
_MOST_DAYS = 31
_MONTHS = 12
_FEWEST_DIGITS = 3
_COUNTED_BY = {1, 2, 8, 9}
"""By one or two, up or down, past nine and nought; three digits that go by more look like no run to anybody."""


def worn_why(pin: str, person: str = "") -> str | None:
    """Say why a six-digit PIN is among the first anybody would try; none when it is not.

    >>> worn_why("123456")
    'it is a run or a line of the keypad'
    >>> worn_why("481516") is None
    True
    """
    if _repeats(pin):
        return "it repeats itself"
    if _runs(pin) or all(_easy(half) for half in (pin[:3], pin[3:])):
        return "it is a run or a line of the keypad"
    if _a_day(pin):
        return "it reads as a day or as a month of a year"
    return "it is made of the person's own number" if _own_number(pin, person) else None


def _repeats(pin: str) -> bool:
    return len(set(pin)) < _FEWEST_DIGITS or any(pin == pin[:size] * (len(pin) // size) for size in (1, 2, 3))


def _runs(pin: str) -> bool:
    return len(_steps(pin[::2] if pin[::2] == pin[1::2] else pin)) == 1


def _steps(digits: str) -> set[int]:
    return {(int(after) - int(before)) % 10 for before, after in pairwise(digits)}


def _easy(half: str) -> bool:
    steps = _steps(half)
    return len(steps) == 1 and (steps <= {0, *_COUNTED_BY} or half in _COLUMNS or half[::-1] in _COLUMNS)


def _a_day(pin: str) -> bool:
    one, two, three = (int(pin[at : at + 2]) for at in (0, 2, 4))
    # Day, month, year; month, day, year; year, month, day; and a year with its month, either way round.
    if _day_and_month(one, two) or _day_and_month(two, one) or _day_and_month(three, two):
        return True
    return any(year in ("19", "20") and 1 <= month <= _MONTHS for year, month in ((pin[:2], three), (pin[2:4], one)))


def _day_and_month(day: int, month: int) -> bool:
    return 1 <= day <= _MOST_DAYS and 1 <= month <= _MONTHS


def _own_number(pin: str, person: str) -> bool:
    number = "".join(re.findall(r"[0-9]", person))[-len(pin) :]
    return bool(number) and pin.strip("0") == number.strip("0")
