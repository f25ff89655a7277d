"""An analysis held against composition limits, rounded to the last digit of each limit as the standards do."""

from typing import NamedTuple

from server.facts.judged import Verdict
from server.facts.occasion_material import MaterialOccasion
from server.judgement.rule import Rule


class Beyond(NamedTuple):
    """One element beyond its limits."""

    element: str
    found: float
    low: float | None
    high: float | None


def held_against(me: Rule, on: MaterialOccasion) -> Verdict:
    """Give the verdict on one lot or heat."""
    if on.limits is None or not on.composition:
        return me.not_asked()
    pairs = ((element, text, on.composition.get(element)) for element, text in on.limits.limits.items())
    beyond = [b for element, text, found in pairs if found is not None and (b := _beyond(element, text, found))]
    if not beyond:
        missing = sorted(on.limits.limits.keys() - on.composition.keys())
        said = f"Not analysed: {', '.join(missing)}." if missing else ""
        return me.within(on.subject, on.subject, value=on.name)._replace(message=said, source=on.limits.edition)
    first = beyond[0]
    said = f"{on.subject} ({on.name}): {', '.join(map(_words, beyond))}."
    return me.outside(
        on.subject,
        said,
        on.subject,
        value=first.found,
        unit="mass %",
        low=first.low,
        high=first.high,
        source=on.limits.edition,
    )


def _beyond(element: str, text: str, found: float) -> Beyond | None:
    low_text, _, high_text = text.partition("..")
    low, high = (float(end) if end else None for end in (low_text, high_text))
    under = low is not None and _rounded(found, low_text) < low
    over = high is not None and _rounded(found, high_text) > high
    return Beyond(element, found, low, high) if under or over else None


def _rounded(found: float, limit: str) -> float:
    """An analysis of 0.154 meets a limit written 0.15, and one of 0.156 does not."""
    return round(found, len(limit.partition(".")[2]))


def _words(beyond: Beyond) -> str:
    low = f"{beyond.low:g}" if beyond.low is not None else ""
    span = f"{low} to {beyond.high:g}" if low and beyond.high is not None else ""
    allowed = span or (f"at most {beyond.high:g}" if beyond.high is not None else f"at least {low}")
    return f"{beyond.element} {beyond.found:g} %, {allowed} is allowed"
