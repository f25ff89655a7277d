"""Short ways to settle when joints were welded, as the story tells it: `J06 13:22/13:38` is end of root and of fill."""

import re

from demo_data.generator.days import MINUTE
from demo_data.generator.plan import Pin, Place, Plan

_RUN = re.compile(r"([FHJK]\d\d) (\d\d:\d\d(?::\d\d)?)/(\d\d:\d\d(?::\d\d)?)")


def pin_runs(plan: Plan, place: Place, day: str, number: int, told: str, attempt: int = 1) -> list[Pin]:
    """Settle root and fill of the joints told, in order."""
    pins = []
    for joint, root, fill in _RUN.findall(told):
        pin = plan.pin(place.number(number), joint, attempt)
        pin.root, pin.fill = place.at(day, root), place.at(day, fill)
        pins.append(pin)
    return pins


def pin_tacks(plan: Plan, place: Place, day: str, number: int, told: str, attempt: int = 1) -> None:
    """Settle tacks, told as `J04 07:58 J06 08:06`."""
    for joint, clock in re.findall(r"([FHJK]\d\d) (\d\d:\d\d)", told):
        plan.pin(place.number(number), joint, attempt).tack = place.at(day, clock)


def pin_fittings(
    plan: Plan, place: Place, day: str, number: int, first: int, clock: str, every: int, count: int
) -> None:
    """Settle fittings welded one after another, so many minutes apart."""
    for step in range(count):
        pin = plan.pin(place.number(number), f"F{first + step:02d}")
        pin.fill = pin.root = place.at(day, clock) + step * every * MINUTE


def subjects(place: Place, number: int, *joints: str, attempt: int = 1) -> list[str]:
    """Name joints of a frame."""
    return [f"{place.serial(number)}/{joint}#{attempt}" for joint in joints]


def span(letter: str, first: int, last: int) -> list[str]:
    """Name joints that follow one another: span("F", 1, 14)."""
    return [f"{letter}{number:02d}" for number in range(first, last + 1)]
