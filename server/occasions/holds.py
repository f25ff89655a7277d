"""Failed checks a joint rests on, and the signed narrowing that cleared it where one did."""

from collections.abc import Iterable, Iterator, Sequence

from server.facts.occasion_joint import HoldFact, LookFact
from server.facts.occasion_pass import PassOccasion
from server.occasions.failed_checks import FailedCheck
from server.occasions.narrowed import Cut, outside_of
from server.occasions.tables import Tables
from server.occasions.timed import Timed

_MS_PER_MIN = 60_000.0


def holds_of(
    tables: Tables, passes: Sequence[PassOccasion], looks: Sequence[LookFact], hidden_by: Sequence[Timed]
) -> tuple[HoldFact, ...]:
    """Give each failed check that reaches one of these passes."""
    reached: dict[str, tuple[FailedCheck, list[PassOccasion]]] = {}
    for each in passes:
        for failed in _reaching(tables, each):
            reached.setdefault(failed.check, (failed, []))[1].append(each)
    return tuple(_hold(tables, failed, in_it, looks, hidden_by) for failed, in_it in reached.values())


def in_stretch(failed: FailedCheck, at_ms: int) -> bool:
    """Tell whether a time lies between the last good check and the failure."""
    return (failed.since_ms is None or at_ms > failed.since_ms) and at_ms < failed.until_ms


def _reaching(tables: Tables, each: PassOccasion) -> Iterator[FailedCheck]:
    at_ms = each.ended.at_ms
    for failed in _about(tables, each):
        if in_stretch(failed, at_ms) and (not failed.procedures or each.joint.procedure in failed.procedures):
            yield failed


def _about(tables: Tables, each: PassOccasion) -> Iterator[FailedCheck]:
    for gas in (each.purge, each.torch):
        if gas is not None:
            yield from tables.failed_for("bead", gas.line)
    yield from tables.failed_for("coupon", each.welder)
    if tables.instrument_failed:
        for instrument in _instruments(tables, each):
            yield from tables.failed_for("calibration", instrument)
            yield from tables.failed_for("cross-check", instrument)


def _instruments(tables: Tables, each: PassOccasion) -> set[str | None]:
    named = {figure.by for figure in each.figures.values()}
    oxygen = each.figures.get("oxygen")
    if oxygen is None or oxygen.by is None:
        named.add(tables.uses.analyser_at(each.purge.line if each.purge else None, each.ended.at_ms))
    return named - {None}


def _hold(
    tables: Tables,
    failed: FailedCheck,
    passes: Sequence[PassOccasion],
    looks: Sequence[LookFact],
    hidden_by: Sequence[Timed],
) -> HoldFact:
    cut, why = _cleared(tables.cuts.of(failed.check), passes, looks)
    waiting = _hidden_while_waiting(failed, passes, hidden_by)
    return HoldFact(
        check=failed.check,
        subject=failed.subject,
        kind=failed.kind,
        because=f"used {failed.thing}",
        since_ms=failed.since_ms,
        until_ms=failed.until_ms,
        passes=tuple(each.entry for each in passes),
        tested=failed.tested,
        recorded_ms=failed.recorded_ms,
        cleared_by=cut.id if cut else None,
        cleared_reason=why,
        covered_while_waiting=waiting.entry.id if waiting else None,
        waited_min=(failed.recorded_ms - failed.tested.at_ms) / _MS_PER_MIN if waiting else None,
    )


def _hidden_while_waiting(
    failed: FailedCheck, passes: Sequence[PassOccasion], hidden_by: Iterable[Timed]
) -> Timed | None:
    since = max(failed.tested.at_ms, *(each.ended.at_ms for each in passes))
    return next((tack for tack in hidden_by if since < tack.at.at_ms < failed.recorded_ms), None)


def _cleared(
    cuts: Iterable[Cut], passes: Sequence[PassOccasion], looks: Sequence[LookFact]
) -> tuple[Cut | None, str]:
    for cut in cuts:
        if cut.keeps and passes[0].subject not in cut.keeps:
            return cut, cut.reason
        if all(outside_of(cut, each.ended.at_ms) for each in passes):
            return cut, cut.reason
        if cut.by == "as-found curve" and not any(_over_by_curve(each) for each in passes):
            return cut, cut.reason
        if cut.by == "inside colour" and not cut.keeps and _silver_inside(looks):
            return cut, cut.reason
    return None, ""


def _over_by_curve(each: PassOccasion) -> bool:
    oxygen, limit = each.figures.get("oxygen"), each.limits.get("oxygen")
    return oxygen is not None and limit is not None and limit.high is not None and oxygen.value > limit.high


def _silver_inside(looks: Sequence[LookFact]) -> bool:
    grades = [look.grade for look in looks if look.side == "inside" and look.grade is not None]
    return bool(grades) and max(grades) == 0
