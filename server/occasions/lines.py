"""Gas lines as occasions: each bead, each cylinder change, each cylinder, each leak test and dew point."""

from collections.abc import Iterator

from server.facts.occasion_line import BeadOccasion, ChangeOccasion, LineCheckOccasion
from server.facts.subject import moment_subject
from server.occasions.about import About, asked_about
from server.occasions.tables import Tables
from server.occasions.tested import Tested
from server.occasions.timed import Timed


def bead_occasions(tables: Tables, about: About = None) -> Iterator[BeadOccasion]:
    """Give every bead of every line, or of some."""
    for line in asked_about(tables.gas.beads, about):
        for bead in tables.gas.beads[line]:
            yield _bead(tables, line, bead)


def change_occasions(tables: Tables, about: About = None) -> Iterator[ChangeOccasion]:
    """Give every cylinder change of every line, or of some; the first connection of all is one too."""
    for line in asked_about(tables.gas.changes, about):
        for change, until_ms in tables.gas.stretches(line):
            yield _change(tables, line, change, until_ms)


def line_check_occasions(tables: Tables, about: About = None) -> Iterator[LineCheckOccasion]:
    """Give every leak test, dew point reading and function check, or those of some things."""
    for check in tables.checks_of(about):
        entry = check.entry
        if entry.check in ("leak", "dew point", "function"):
            accept = tables.at(tables.days.day_of(check.at.at_ms))
            measured = entry.values.get("dew_point")
            yield LineCheckOccasion(
                subject=moment_subject(entry.subject, entry.happened),
                check=entry.check,
                thing=entry.subject,
                entry=entry.id,
                at=check.at,
                result=check.result,
                dew_point=tables.doubts.figure("dew_point", measured, entry.id, accept) if measured else None,
                accept=accept,
            )


def _bead(tables: Tables, line: str, bead: Tested) -> BeadOccasion:
    at_ms = bead.at.at_ms
    return BeadOccasion(
        subject=moment_subject(line, bead.entry.happened),
        line=line,
        purge=line in tables.gas.purge_lines,
        entry=bead.told_in,
        at=bead.at,
        result=bead.result,
        grade=bead.entry.grade,
        cylinder=bead.entry.cylinder,
        accept=tables.at(tables.days.day_of(at_ms)),
        used_after=_used_after(tables, line, bead) if bead.result == "failed" else (),
    )


def _used_after(tables: Tables, line: str, bead: Tested) -> tuple[str, ...]:
    since = bead.at.at_ms
    good = [each.at.at_ms for each in tables.gas.beads[line] if each.result == "good" and each.at.at_ms > since]
    changes = [each.at.at_ms for each in tables.gas.changes.get(line, ()) if each.at.at_ms > since]
    until = min([*good, *changes], default=tables.end_ms + 1)
    return tuple(use.entry for use in tables.uses.on_line(line, since, until) if use.started_ms > since)


def _change(tables: Tables, line: str, change: Timed, until_ms: int | None) -> ChangeOccasion:
    since, entry = change.at.at_ms, change.entry
    day = tables.days.day_of(since)
    accept = tables.at(day)
    end = tables.end_ms if until_ms is None else until_ms
    used = [use.started_ms for use in tables.uses.on_line(line, since, end)]
    beads = tables.gas.beads_between(line, since, end)
    # The bead of a change is made that day; where the line then rested, before it is used again.
    first_use = min(used, default=end)
    made = [b for b in beads if tables.days.day_of(b.at.at_ms) == day or b.at.at_ms < first_use]
    pressure = entry.off_values.get("pressure")
    return ChangeOccasion(
        subject=moment_subject(line, entry.happened),
        line=line,
        purge=line in tables.gas.purge_lines,
        entry=entry.id,
        at=change.at,
        on=entry.on,
        off=entry.off,
        beads=tuple(each.told_in for each in made),
        used=bool(used),
        closed=until_ms is not None or tables.today > day,
        off_pressure=tables.doubts.figure("pressure", pressure, entry.id, accept) if pressure else None,
        accept=accept,
    )
