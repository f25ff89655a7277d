"""The heat each quarter of a joint has taken over all attempts on the same metal."""

from collections.abc import Mapping

from server.facts.entry import QUARTERS
from server.facts.occasion_joint import HeatFact
from server.facts.occasion_pass import PassOccasion
from server.occasions.frame_log import Attempt, FrameLog
from server.occasions.lives import same_metal


def heat_of(
    log: FrameLog, attempt: Attempt, passes_of: Mapping[tuple[str, int], tuple[PassOccasion, ...]]
) -> tuple[HeatFact, ...]:
    """Give the sums for the last attempt on a metal only: there the whole of it is known."""
    life = same_metal(log, attempt)
    if life[-1] is not attempt or len(life) == 1:
        return ()
    found = [_in_quarter(quarter, life, passes_of) for quarter in QUARTERS]
    return tuple(each for each in found if each is not None)


def _in_quarter(
    quarter: str, life: list[Attempt], passes_of: Mapping[tuple[str, int], tuple[PassOccasion, ...]]
) -> HeatFact | None:
    arcs = [
        (each.attempt, each.figures["heat_input"].value, each.entry)
        for attempt in life
        for each in passes_of.get((attempt.joint, attempt.number), ())
        if quarter in each.quarters and "heat_input" in each.figures
    ]
    first = sum(heat for number, heat, _ in arcs if number == life[0].number)
    if first == 0:
        return None
    entries = tuple(entry for _, _, entry in arcs)
    return HeatFact(quarter, len(arcs), sum(heat for _, heat, _ in arcs), first, entries)
