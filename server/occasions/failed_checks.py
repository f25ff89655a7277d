"""Checks that failed, with the stretch of time each puts in doubt and the thing that was used in it."""

from collections.abc import Callable, Iterable, Mapping, Sequence
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


def failed_beads(line: str, beads: Sequence[Tested], purges: bool) -> list[FailedCheck]:
    """Give the failed beads of a line."""
    question = "purge-bead" if purges else "torch-bead"
    return [_failed(each, question, "bead", line, frozenset(), beads) for each in beads if each.result == "failed"]


def failed_coupons(welder: str, coupons: Sequence[Tested]) -> list[FailedCheck]:
    """Give a welder's failed coupons; a good one counts as the last good when it qualified a procedure of the same."""
    failed = []
    for each in coupons:
        if each.result == "failed":
            procedures = frozenset(each.entry.procedures)
            own = [c for c in coupons if procedures & set(c.entry.procedures)]
            failed.append(_failed(each, "coupon", "coupon", welder, procedures, own))
    return failed


def failed_cross_checks(
    instrument: str, checks: Sequence[Tested], opens_a_set: Callable[[Tested], bool]
) -> list[FailedCheck]:
    """Give an instrument's failed cross-checks that put readings in doubt under the acceptance file of their day."""
    known = [each for each in checks if each.entry.check == "cross"]
    return [
        _failed(each, "cross-check", "cross-check", instrument, frozenset(), known)
        for each in known
        if each.result == "failed" and opens_a_set(each)
    ]


def failed_calibrations(instrument: str, calibrations: Sequence[Calibration]) -> list[FailedCheck]:
    """Give the calibrations that found an instrument wrong; those given are its own, in the order of time."""
    good = [each.at for each in calibrations if each.result == "pass"]
    return [_wrong(each, instrument, good) for each in calibrations if each.result == "fail"]


def _wrong(found: Calibration, instrument: str, good: Sequence[int]) -> FailedCheck:
    return FailedCheck(
        check=found.id,
        subject=moment_subject(instrument, found.at),
        question="instrument-calibrated",
        kind="calibration",
        thing=instrument,
        procedures=frozenset(),
        since_ms=max((at for at in good if at < found.at), default=None),
        until_ms=found.at,
        good_again_ms=min((at for at in good if at > found.at), default=None),
        tested=Stamp(found.at, 0, "", None, 0),
        recorded_ms=found.at,
        as_found=found.as_found,
        found_u=found.found_uncertainty,
    )


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
