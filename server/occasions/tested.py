"""Beads, coupons and checks with their final results: tested at one time, the result perhaps entered at another."""

from collections.abc import Iterable
from typing import Any, NamedTuple

from server.facts.clock import Stamp
from server.occasions.timed import Timed


class Tested(NamedTuple):
    """One test: when it was made, its result, and when and in which entry the result was told."""

    at: Stamp
    result: str
    recorded_ms: int
    told_in: str
    position: int
    entry: Any


def with_results(timed: Iterable[Timed]) -> list[Tested]:
    """Join each later result to the test it names; a result whose test is missing stands as its own test."""
    ordered = list(timed)
    tests = {each.entry.id for each in ordered if each.entry.of is None}
    later = {each.entry.of: each for each in ordered if each.entry.of in tests}
    return [_tested(each, later.get(each.entry.id, each)) for each in ordered if each.entry.of not in tests]


def _tested(test: Timed, told: Timed) -> Tested:
    return Tested(test.at, told.entry.result, told.tapped_ms, told.entry.id, told.position, test.entry)


def plain(timed: Iterable[Timed]) -> list[Tested]:
    """Take checks as they are: their result is told when they are made."""
    return [Tested(each.at, each.entry.result, each.tapped_ms, each.entry.id, each.position, each.entry)
            for each in timed]
