"""Suspect sets made smaller by signed facts: what each narrowing leaves in, and why a pass fell out."""

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from typing import NamedTuple

from server.facts.deciding import Narrowing
from server.facts.looked_up import looked_up
from server.facts.registers import Registers
from server.occasions.failed_checks import FailedCheck


class Cut(NamedTuple):
    """One narrowing as it stands: the stretch it leaves, the subjects it keeps or lets out, or the curve it applies."""

    id: str
    by: str
    reason: str
    since_ms: int | None
    until_ms: int | None
    keeps: frozenset[str]
    lets_out: frozenset[str] = frozenset()


class Cuts:
    """All narrowings that stand on a fact and were not undone, by the failed check they narrow."""

    def __init__(self, narrowings: Iterable[Narrowing], moment_of: Callable[[str], int | None]) -> None:
        known = list(narrowings)
        undone = {each.undoes for each in known}
        self._of: dict[str, list[Cut]] = defaultdict(list)
        for each in known:
            # A set cut by a date alone, with no fact behind it, stays as wide as it was.
            if each.id not in undone and each.by != "none" and each.fact is not None:
                self._of[each.check].append(_cut(each, moment_of))

    def of(self, check: str) -> list[Cut]:
        """Give the narrowings of one failed check."""
        return self._of.get(check, [])

    def by_check(self) -> Mapping[str, list[Cut]]:
        """Give the narrowings of every failed check that has one."""
        return self._of

    def curve_stretch(self, failed: FailedCheck) -> tuple[int, int] | None:
        """Give the stretch over which the as-found curve was signed to hold; none while it is not signed."""
        cuts = self.of(failed.check)
        if not failed.as_found or not any(cut.by == "as-found curve" for cut in cuts):
            return None
        since = [cut.since_ms for cut in cuts if cut.since_ms is not None]
        until = [cut.until_ms for cut in cuts if cut.until_ms is not None]
        return max([failed.since_ms or 0, *since]), min([failed.until_ms, *until])


def facts_under(registers: Registers) -> frozenset[str]:
    """Give the entries that narrowings rest on, by their ids."""
    told = registers.narrowings

    def read() -> frozenset[str]:
        return frozenset(each.fact for each in told.values() if each.fact is not None)

    return looked_up(registers, "facts under narrowings", (told,), read)


class Rested(NamedTuple):
    """A joint's passes in a suspect set: when they were, and whether the curve puts one of them over its limit."""

    subject: str
    at_ms: tuple[int, ...]
    over_by_curve: bool


def cleared_by(cuts: Iterable[Cut], rested: Rested) -> Cut | None:
    """Give the first narrowing that lets a joint out; none while all leave it in."""
    return next((cut for cut in cuts if _lets_out(cut, rested)), None)


def _lets_out(cut: Cut, rested: Rested) -> bool:
    if cut.lets_out:
        return rested.subject in cut.lets_out
    if cut.keeps:
        return rested.subject not in cut.keeps
    if cut.by == "as-found curve":
        return not rested.over_by_curve
    return all(_outside_of(cut, at_ms) for at_ms in rested.at_ms)


def _outside_of(cut: Cut, at_ms: int) -> bool:
    return (cut.since_ms is not None and at_ms < cut.since_ms) or (cut.until_ms is not None and at_ms > cut.until_ms)


def true_from_curve(as_found: tuple[tuple[float, float], ...], indicated: float) -> float:
    """Give the true value behind an indicated one, straight between and beyond the points found.

    >>> true_from_curve(((20, 4), (50, 19), (100, 44)), 19)
    50.0
    """
    points = sorted((shown, true) for true, shown in as_found)
    if len(points) == 1:
        return indicated + points[0][1] - points[0][0]
    place = min(max(bisect_right(points, (indicated, float("inf"))), 1), len(points) - 1)
    (shown_low, true_low), (shown_high, true_high) = points[place - 1], points[place]
    return true_low + (indicated - shown_low) * (true_high - true_low) / (shown_high - shown_low)


def _cut(narrowing: Narrowing, moment_of: Callable[[str], int | None]) -> Cut:
    since = narrowing.since
    if since is None and narrowing.fact is not None and narrowing.by in ("cylinder connected", "cross-check"):
        since = moment_of(narrowing.fact)
    keeps, lets_out = frozenset(narrowing.keeps), frozenset(narrowing.lets_out)
    return Cut(narrowing.id, narrowing.by, narrowing.reason, since, narrowing.until, keeps, lets_out)
