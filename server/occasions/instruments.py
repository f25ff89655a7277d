"""Instruments as occasions: checks, calibrations, use after the due day, readings below the gas's own certificate."""

from collections.abc import Iterator, Sequence
from datetime import date
from itertools import groupby

from server.facts.occasion_instrument import CalibrationOccasion, CheckOccasion, ImpossibleReading, InstrumentOccasion
from server.facts.subject import day_subject, moment_subject
from server.occasions.about import About, asked_about
from server.occasions.cross_checks import shown_difference
from server.occasions.days import last_day
from server.occasions.tables import Tables
from server.occasions.tested import Tested
from server.occasions.uses import Use


def check_occasions(tables: Tables, about: About = None) -> Iterator[CheckOccasion]:
    """Give every air check and cross-check, or those of some instruments."""
    for check in tables.checks_of(about):
        if check.entry.check in ("air", "cross"):
            yield _check(tables, check)


def calibration_occasions(tables: Tables, about: About = None) -> Iterator[CalibrationOccasion]:
    """Give every calibration, or those of some instruments."""
    known = (each for name in asked_about(tables.calibrations_of, about) for each in tables.calibrations_of[name])
    for each in sorted(known, key=lambda each: (each.at, tables.calibrations_told[each.id])):
        good = (c.at for c in tables.calibrations_of[each.instrument] if c.result == "pass" and c.at < each.at)
        yield CalibrationOccasion(
            subject=moment_subject(each.instrument, each.at),
            instrument=each.instrument,
            calibration=each.id,
            at_ms=each.at,
            passed=each.result == "pass",
            last_good_ms=max(good, default=None),
            accept=tables.at(tables.days.day_of(each.at)),
        )


def instrument_occasions(tables: Tables, about: About = None) -> Iterator[InstrumentOccasion]:
    """Give every instrument, or some, once for each stretch between two good calibrations."""
    for instrument in asked_about(tables.registers.instruments, about):
        good = [each.at for each in tables.calibrations_of.get(instrument, ()) if each.result == "pass"]
        for since, until in zip(good, [*good[1:], tables.end_ms + 1], strict=False):
            inside = tables.uses.read_by(instrument, since - 1, until)
            yield _instrument(tables, instrument, since, inside)


def _check(tables: Tables, check: Tested) -> CheckOccasion:
    entry, since = check.entry, check.at.at_ms
    shown = shown_difference(entry)
    return CheckOccasion(
        subject=moment_subject(entry.subject, entry.happened),
        check=entry.check,
        instrument=entry.subject,
        against=entry.against,
        entry=entry.id,
        at=check.at,
        result=check.result,
        difference=shown[0] if shown else None,
        unit=shown[1] if shown else "",
        acted_on=entry.acted_on,
        used_after=_used_after(tables, check) if check.result == "failed" else (),
        accept=tables.at(tables.days.day_of(since)),
    )


def _used_after(tables: Tables, check: Tested) -> tuple[str, ...]:
    """Until the next check of that kind, or the next calibration, somebody read with a meter that had failed."""
    entry, since = check.entry, check.at.at_ms
    same = [c.at.at_ms for c in tables.checks_about(entry.subject) if c.entry.check == entry.check]
    calibrated = [c.at for c in tables.calibrations_of.get(entry.subject, ())]
    until = min((ms for ms in (*same, *calibrated) if ms > since), default=tables.end_ms + 1)
    return tuple(use.entry for use in tables.uses.read_by(entry.subject, since, until))


def _instrument(tables: Tables, instrument: str, since_ms: int, uses: Sequence[Use]) -> InstrumentOccasion:
    day = tables.days.day_of(since_ms)
    months = tables.registers.instruments[instrument].months
    due = last_day(date.fromordinal(day), months).toordinal() if months else None
    run = _longest_run(uses, instrument)
    return InstrumentOccasion(
        subject=day_subject(instrument, day),
        instrument=instrument,
        today=tables.today,
        due_day=due,
        used_after_due=tuple(use.entry for use in uses if due is not None and use.day > due),
        impossible=tuple(_below_certificate(tables, instrument, uses)),
        run=tuple(use.entry for use in run),
        run_day=run[0].day if run else None,
        accept=tables.at(day),
    )


def _below_certificate(tables: Tables, instrument: str, uses: Sequence[Use]) -> Iterator[ImpossibleReading]:
    for use in uses:
        if use.oxygen_by != instrument or use.oxygen_ppm is None:
            continue
        gas = tables.gas.at(use.purge_line, use.at.at_ms)
        certified = gas.certificate_ppm if gas else None
        if certified is not None and use.oxygen_ppm < certified:
            u = tables.doubts.of(instrument, "oxygen", use.oxygen_ppm)
            yield ImpossibleReading(use.entry, use.day, use.oxygen_ppm, u, certified)


def _longest_run(uses: Sequence[Use], instrument: str) -> Sequence[Use]:
    """Passes in a row with all counted figures alike, which no hand repeats."""
    counted = [use for use in uses if use.machine == instrument and len(use.counted) == 3]
    runs = [list(run) for _, run in groupby(counted, key=lambda use: use.counted)]
    return max(runs, key=len, default=[])
