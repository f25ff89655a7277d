"""The oxygen a design's procedures ask for in the purge, so that a calculator starts from the shop's own figure."""

from collections.abc import Iterable
from datetime import date

from server.facts.design import Design
from server.facts.procedure import Procedure
from server.procedures.in_force import revision_in_force


def oxygen_asked(
    designs: Iterable[Design], procedures: Iterable[Procedure], today: date
) -> dict[str, tuple[str, str]]:
    """Give for each design the lowest oxygen limit [ppm] of its joints' procedures in force, and where it stands."""
    known = list(procedures)
    found: dict[str, tuple[str, str]] = {}
    for design in designs:
        limits = [
            (limit.high, in_force.called)
            for name in sorted({joint.procedure for joint in design.joints})
            if (in_force := revision_in_force(known, name, today)) is not None
            for limit in in_force.limits
            if limit.name == "oxygen" and limit.high is not None
        ]
        if limits:
            high, called = min(limits)
            found[design.name] = (f"{high:g}", f"From {called}, in force today.")
    return found
