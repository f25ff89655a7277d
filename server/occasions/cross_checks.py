"""Two meters on one gas: how far apart they showed, and whether that is more than the shop accepts."""

from collections.abc import Callable, Iterable, Mapping

from server.facts.checking import Check
from server.facts.equipment import Acceptance
from server.occasions.days import Days
from server.occasions.tested import Tested, plain
from server.occasions.timed import Timed


def shown_difference(check: Check) -> tuple[float, str] | None:
    """Give the largest difference shown between the two instruments, with its unit; none without both readings."""
    apart = [
        (abs(measured.value - other.value), measured.unit)
        for name, measured in check.values.items()
        if (other := check.other_values.get(name)) is not None
    ]
    return max(apart, default=None)


def with_differences(
    checks: Iterable[Timed], days: Days, accepted_at: Callable[[int], Mapping[str, Acceptance]]
) -> list[Tested]:
    """Give the checks; a cross-check is as good as its figures say, whatever was ticked."""
    return by_figures(plain(checks), days, accepted_at)


def by_figures(
    checks: Iterable[Tested], days: Days, accepted_at: Callable[[int], Mapping[str, Acceptance]]
) -> list[Tested]:
    """Give checks, however they were judged before, as good as their figures say."""
    return [_by_its_figures(each, accepted_at(days.day_of(each.at.at_ms))) for each in checks]


def _by_its_figures(check: Tested, accept: Mapping[str, Acceptance]) -> Tested:
    if check.entry.check != "cross":
        return check
    limit, shown = accept.get("cross_check"), shown_difference(check.entry)
    if limit is None or shown is None:
        return check._replace(result=check.entry.result)
    return check._replace(result="failed" if shown[0] > limit.value else "good")
