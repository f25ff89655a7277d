"""Cylinders as occasions: the oxygen read before and after one came onto a purge line, and what its analysis found."""

from collections.abc import Iterator, Sequence, Set
from math import hypot

from server.facts.materials import Analysis
from server.facts.occasion_line import CylinderOccasion
from server.occasions.about import About, asked_about, is_asked
from server.occasions.tables import Tables
from server.occasions.timed import Timed
from server.occasions.uses import Use

# So many readings on each side tell a step from scatter; more would only reach back to older cylinders.
_MOST_READINGS = 30
# What was read on a line two months ago tells nothing of the gas before this change.
REACH_MS = 60 * 86_400_000


def cylinder_occasions(tables: Tables, about: About = None) -> Iterator[CylinderOccasion]:
    """Give each cylinder once for each time it was on a purge line, and those that were only analysed."""
    analyses = tables.analysis_of
    seen: set[str] = set()
    for line in sorted(tables.gas.purge_lines & _lines(tables, about)):
        for change, until_ms in tables.gas.stretches(line):
            cylinder = change.entry.on
            if cylinder is not None and is_asked(cylinder, about):
                seen.add(cylinder)
                yield _on_line(tables, line, change, until_ms, analyses.get(cylinder))
    for cylinder in asked_about(analyses, about):
        if cylinder not in seen:
            yield _occasion(tables, cylinder, None, None, (), (), analyses[cylinder])


def _lines(tables: Tables, about: About) -> Set[str]:
    """The lines on which some cylinders came."""
    if about is None:
        return tables.gas.changes.keys()
    return {change.entry.line for cylinder in about for change in tables.gas.naming("cylinder", cylinder)}


def _on_line(
    tables: Tables, line: str, change: Timed, until_ms: int | None, analysis: Analysis | None
) -> CylinderOccasion:
    since = change.at.at_ms
    before = _read(tables.uses.on_line(line, since - REACH_MS, since), line)[-_MOST_READINGS:]
    after = _read(tables.uses.on_line(line, since, until_ms or tables.end_ms + 1), line)[:_MOST_READINGS]
    return _occasion(tables, change.entry.on, line, change, tuple(before), tuple(after), analysis)


def _read(uses: Sequence[Use], line: str) -> Sequence[Use]:
    return [use for use in uses if use.purge_line == line and use.oxygen_read]


def _occasion(
    tables: Tables,
    cylinder: str,
    line: str | None,
    change: Timed | None,
    before: tuple[Use, ...],
    after: tuple[Use, ...],
    analysis: Analysis | None,
) -> CylinderOccasion:
    lot = tables.gas.cylinder_of(cylinder)
    day = tables.days.day_of(change.at.at_ms) if change else tables.today
    return CylinderOccasion(
        subject=cylinder,
        cylinder=cylinder,
        line=line,
        at=change.at if change else None,
        before=_readings(before),
        after=_readings(after),
        step_u=_step_u(tables, before, after),
        entries=tuple(use.entry for use in after),
        certificate=lot.certificate if lot else None,
        certificate_oxygen_ppm=lot.oxygen_ppm if lot else None,
        certificate_dew_c=lot.dew_point_c if lot else None,
        analysis=analysis.id if analysis else None,
        analysis_oxygen_ppm=analysis.oxygen_ppm if analysis else None,
        analysis_dew_c=analysis.dew_point_c if analysis else None,
        analysis_dew_u_c=analysis.dew_point_uncertainty_c if analysis else None,
        accept=tables.at(day),
    )


def _readings(uses: tuple[Use, ...]) -> tuple[float, ...]:
    return tuple(use.oxygen_ppm for use in uses if use.oxygen_ppm is not None)


def _step_u(tables: Tables, before: tuple[Use, ...], after: tuple[Use, ...]) -> float | None:
    """The doubt of the difference of one reading before and one after."""
    if not before or not after:
        return None
    doubts = [tables.doubts.of(use.oxygen_by or "", "oxygen", use.oxygen_ppm or 0.0) for use in (before[-1], after[0])]
    known = [each for each in doubts if each is not None]
    return hypot(*known) if len(known) == len(doubts) else None
