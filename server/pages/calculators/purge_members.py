"""The members of a purge as the answer lists them: when each is clear, how low it gets, and how its curve is drawn."""

import math
from dataclasses import dataclass

from server.pages.calculators.purge_form import Chosen
from server.physics.purge_forecast import PurgeForecast
from server.physics.purge_network import PurgeNetwork


@dataclass(frozen=True, slots=True)
class MemberLine:
    """One member: its volume, when it is clear (none: not within a day), its floor, and how its curve is drawn."""

    name: str
    title: str
    volume_l: float
    clear_s: float | None
    floor_ppm: float
    dead_end: bool
    look: str


def member_lines(chosen: Chosen, network: PurgeNetwork, forecast: PurgeForecast) -> tuple[MemberLine, ...]:
    """Give the members, the slowest first."""
    lines = [
        MemberLine(
            name=each.name,
            title=chosen.title(each.name),
            volume_l=each.volume_l,
            clear_s=forecast.clear_s[each.name],
            floor_ppm=forecast.floor_ppm[each.name],
            dead_end=each.name in forecast.dead_ends,
            look="marked" if each.name == forecast.slowest else f"line-{at}",
        )
        for at, each in enumerate(network.members)
    ]
    return tuple(sorted(lines, key=lambda each: (each.name != forecast.slowest, -_wait_s(each))))


def duration_words(seconds: float) -> str:
    """Write a wait as it is said at the bench.

    >>> duration_words(41.0), duration_words(161.0), duration_words(9_800.0)
    ('41 s', '2 min 41 s', '2 h 43 min')
    """
    whole = round(seconds)
    if whole < 60:
        return f"{whole} s"
    if whole < 7200:
        return f"{whole // 60} min {whole % 60} s"
    return f"{whole // 3600} h {whole % 3600 // 60} min"


def _wait_s(line: MemberLine) -> float:
    return math.inf if line.clear_s is None else line.clear_s
