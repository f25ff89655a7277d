"""The bar on which a verdict is shown: the allowed stretch, the value, and how far the instrument can tell."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class LimitBar:
    """Places on a bar 0 to 100 wide: the allowed stretch, the value and its whisker (95 % one-sided)."""

    allowed_from: float
    allowed_to: float
    value_at: float
    whisker_from: float
    whisker_to: float
    open_low: bool
    open_high: bool


def limit_bar(value: float, low: float | None, high: float | None, uncertainty: float | None) -> LimitBar | None:
    """Place a value beside its limits; none when there is no limit to show it against.

    >>> limit_bar(46, None, 50, 2.5).value_at
    69.0
    """
    if low is None and high is None:
        return None
    reach = 1.645 * (uncertainty or 0.0)
    ends = [end for end in (low, high, value - reach, value + reach, 0.0 if low is None else None) if end is not None]
    least, most = min(ends), max(ends)
    span = (most - least) or abs(most) or 1.0
    least, span = (least if low is None and least == 0.0 else least - 0.25 * span), span * 1.5

    def place(number: float) -> float:
        return round(max(0.0, min(100.0, 100.0 * (number - least) / span)), 2)

    return LimitBar(
        allowed_from=0.0 if low is None else place(low),
        allowed_to=100.0 if high is None else place(high),
        value_at=place(value),
        whisker_from=place(value - reach),
        whisker_to=place(value + reach),
        open_low=low is None,
        open_high=high is None,
    )
