"""Turns what a TOML reader gives into what may be sealed: figures as text, days and moments as ISO text."""

from datetime import UTC, date, datetime, time
from decimal import Decimal
from typing import Any

from pydantic import ValidationError

from server.facts.moment import show_moment


def sealable(value: Any) -> Any:
    """Give the value with figures that have a decimal point, days and moments written out.

    >>> sealable({"fixed": 0.05, "months": 3, "issued": date(2025, 5, 5)})
    {'fixed': '0.05', 'months': 3, 'issued': '2025-05-05'}
    """
    if isinstance(value, dict):
        return {name: sealable(inner) for name, inner in value.items()}
    if isinstance(value, list):
        return [sealable(inner) for inner in value]
    if isinstance(value, datetime):
        return _moment(value)
    if isinstance(value, date | time):
        return value.isoformat()
    return format(Decimal(repr(value)), "f") if isinstance(value, float) else value


def with_whole_figures_as_text(told: dict[str, Any], wrong: ValidationError) -> bool:
    """Write as text, in place, the whole numbers that stand where a sealed figure does; say whether there were any.

    `fixed = 1` is as good a figure as `fixed = 1.0`, but what is sealed is the text.
    """
    whole = [error for error in wrong.errors() if type(error["input"]) is int and "decimal text" in error["msg"]]
    for error in whole:
        holder: Any = told
        for step in error["loc"][:-1]:
            holder = holder[step]
        holder[error["loc"][-1]] = str(error["input"])
    return bool(whole)


def _moment(value: datetime) -> str:
    # Without an offset nobody can say which hour it was; the bare text is refused where the noun is made.
    if value.tzinfo is None:
        return value.isoformat()
    return show_moment(round(value.astimezone(UTC).timestamp() * 1000))
