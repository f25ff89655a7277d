"""Failed checks a joint rests on, and the signed narrowing that cleared it where one did."""

from collections.abc import Iterable, Sequence

from server.facts.occasion_joint import HoldFact
from server.facts.occasion_pass import PassOccasion
from server.occasions.failed_checks import FailedCheck, in_stretch
from server.occasions.narrowed import Rested, cleared_by
from server.occasions.tables import Tables
from server.occasions.timed import Timed

_MS_PER_MIN = 60_000.0


def holds_of(tables: Tables, passes: Sequence[PassOccasion], hidden_by: Sequence[Timed]) -> tuple[HoldFact, ...]:
    """Give each failed check that reaches one of these passes."""
    reached: dict[str, tuple[FailedCheck, list[PassOccasion]]] = {}
    for each in passes:
        at_ms = each.ended.at_ms
        for failed in failed_under(tables, each):
            if in_stretch(failed, at_ms) and (not failed.procedures or each.joint.procedure in failed.procedures):
                reached.setdefault(failed.check, (failed, []))[1].append(each)
    return tuple(_hold(tables, failed, in_it, hidden_by) for failed, in_it in reached.values())


def failed_under(tables: Tables, each: PassOccasion) -> list[FailedCheck]:
    """Give the failed checks, whenever they were, of what a pass used."""
    failed_of = tables.failed.of
    found: list[FailedCheck] = []
    for gas in (each.purge, each.torch):
        if gas is not None:
            found += failed_of("bead", gas.line)
    found += failed_of("coupon", each.welder)
    for instrument in _instruments(tables, each):
        found += failed_of("calibration", instrument)
        found += failed_of("cross-check", instrument)
    return found


def _instruments(tables: Tables, each: PassOccasion) -> set[str | None]:
    named = {figure.by for figure in each.figures.values()}
    oxygen = each.figures.get("oxygen")
    if oxygen is None or oxygen.by is None:
        named.add(tables.uses.analyser_at(each.purge.line if each.purge else None, each.ended.at_ms))
    return named


def _hold(
    tables: Tables, failed: FailedCheck, passes: Sequence[PassOccasion], hidden_by: Sequence[Timed]
) -> HoldFact:
    rested = Rested(passes[0].subject, tuple(each.ended.at_ms for each in passes), any(map(_over_by_curve, passes)))
    cut = cleared_by(tables.cuts.of(failed.check), rested)
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
        cleared_reason=cut.reason if cut else "",
        covered_while_waiting=waiting.entry.id if waiting else None,
        waited_min=(failed.recorded_ms - failed.tested.at_ms) / _MS_PER_MIN if waiting else None,
    )


def _hidden_while_waiting(
    failed: FailedCheck, passes: Sequence[PassOccasion], hidden_by: Iterable[Timed]
) -> Timed | None:
    since = max(failed.tested.at_ms, *(each.ended.at_ms for each in passes))
    return next((tack for tack in hidden_by if since < tack.at.at_ms < failed.recorded_ms), None)


def _over_by_curve(each: PassOccasion) -> bool:
    oxygen, limit = each.figures.get("oxygen"), each.limits.get("oxygen")
    return oxygen is not None and limit is not None and limit.high is not None and oxygen.value > limit.high

