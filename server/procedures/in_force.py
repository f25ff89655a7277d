"""Which revision of a written procedure was in force on a day, and which one follows it."""

from collections.abc import Iterable
from datetime import date, timedelta

from server.facts.procedure import Procedure


def revisions(procedures: Iterable[Procedure], name: str) -> list[Procedure]:
    """The revisions of one procedure, oldest first; two that start on one day in the order of their letters."""
    return sorted((p for p in procedures if p.name == name), key=lambda p: (p.valid_from, p.revision))


def revision_in_force(procedures: Iterable[Procedure], name: str, on: date) -> Procedure | None:
    """The revision in force on a day: the last that had started; none before the first did."""
    started = [p for p in revisions(procedures, name) if p.valid_from <= on]
    return started[-1] if started else None


def last_day(procedures: Iterable[Procedure], procedure: Procedure) -> date | None:
    """The last day a revision is in force: the day before the next one starts; none while none follows."""
    later = [p.valid_from for p in procedures if p.name == procedure.name and p.valid_from > procedure.valid_from]
    return min(later) - timedelta(days=1) if later else None
