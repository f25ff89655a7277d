"""Checks that failed, with the stretch of time each puts in doubt and the thing that was used in it."""

from collections.abc import Callable, Iterable, Mapping
from typing import NamedTuple

from server.facts.clock import Stamp
from server.facts.equipment import Acceptance, Calibration
from server.facts.subject import moment_subject
from server.occasions.tested import Tested

AcceptedAt = Callable[[int], Mapping[str, Acceptance]]


class FailedCheck(NamedTuple):
    """A failed check: what it was about, since the last good one (none: since ever), until it failed, until good again.

    `thing` is the gas line, welder or instrument; `procedures` limits it to work under these, empty for all.
    """

    check: str
    subject: str
    question: str
    kind: str
    thing: str
    procedures: frozenset[str]
    since_ms: int | None
    until_ms: int
    good_again_ms: int | None
    tested: Stamp
    recorded_ms: int
    as_found: tuple[tuple[float, float], ...] = ()
    found_u: float | None = None


def in_stretch(failed: FailedCheck, at_ms: int) -> bool:
    """Tell whether a time lies between the last good check and the failure."""
    return (failed.since_ms is None or at_ms > failed.since_ms) and at_ms < failed.until_ms


def failed_beads(beads: Mapping[str, list[Tested]], purge_lines: frozenset[str]) -> list[FailedCheck]:
    """Give the failed beads of every line."""
    return [
        _failed(each, "purge-bead" if line in purge_lines else "torch-bead", "bead", line, frozenset(), of_line)
        for line, of_line in beads.items()
        for each in of_line
        if each.result == "failed"
    ]


def failed_coupons(coupons: Iterable[Tested]) -> list[FailedCheck]:
    """Give the failed coupons; a good one counts as the last good when it qualified one of the same procedures."""
    known = list(coupons)
    failed = []
    for each in known:
        if each.result == "failed":
            welder, procedures = each.entry.welder, frozenset(each.entry.procedures)
            own = [c for c in known if c.entry.welder == welder and procedures & set(c.entry.procedures)]
            failed.append(_failed(each, "coupon", "coupon", welder, procedures, own))
    return failed


def failed_cross_checks(checks: Iterable[Tested], opens_a_set: Callable[[Tested], bool]) -> list[FailedCheck]:
    """Give the failed cross-checks that put readings in doubt under the acceptance file of their day."""
    known = [each for each in checks if each.entry.check == "cross"]
    return [
        _failed(each, "cross-check", "cross-check", each.entry.subject, frozenset(), _about(known, each.entry.subject))
        for each in known
        if each.result == "failed" and opens_a_set(each)
    ]


def failed_calibrations(calibrations: Iterable[Calibration]) -> list[FailedCheck]:
    """Give the calibrations that found their instrument wrong."""
    known = sorted(calibrations, key=_at)
    failed = []
    for each in known:
        if each.result == "fail":
            good = [c.at for c in known if c.instrument == each.instrument and c.result == "pass"]
            stamp = Stamp(each.at, 0, "", None, 0)
            failed.append(
                FailedCheck(
                    check=each.id,
                    subject=moment_subject(each.instrument, each.at),
                    question="instrument-calibrated",
                    kind="calibration",
                    thing=each.instrument,
                    procedures=frozenset(),
                    since_ms=max((at for at in good if at < each.at), default=None),
                    until_ms=each.at,
                    good_again_ms=min((at for at in good if at > each.at), default=None),
                    tested=stamp,
                    recorded_ms=each.at,
                    as_found=each.as_found,
                    found_u=each.found_uncertainty,
                )
            )
    return failed


def _failed(
    test: Tested, question: str, kind: str, thing: str, procedures: frozenset[str], same: Iterable[Tested]
) -> FailedCheck:
    at_ms = test.at.at_ms
    good = [each.at.at_ms for each in same if each.result == "good"]
    return FailedCheck(
        check=test.entry.id,
        subject=moment_subject(thing, test.entry.happened),
        question=question,
        kind=kind,
        thing=thing,
        procedures=procedures,
        since_ms=max((ms for ms in good if ms < at_ms), default=None),
        until_ms=at_ms,
        good_again_ms=min((ms for ms in good if ms > at_ms), default=None),
        tested=test.at,
        recorded_ms=test.recorded_ms,
    )


def _about(checks: list[Tested], instrument: str) -> list[Tested]:
    return [each for each in checks if each.entry.subject == instrument]


def _at(calibration: Calibration) -> int:
    return calibration.at
