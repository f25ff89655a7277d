"""Beads, coupons and checks with their final results: tested at one time, the result perhaps entered at another."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Any, NamedTuple

from server.facts.clock import Stamp
from server.occasions.filed import refiled
from server.occasions.timed import Timed, in_order

_NONE: Mapping[str, Sequence[Timed]] = MappingProxyType({})


class Tested(NamedTuple):
    """One test: when it was made, its result, and when and in which entry the result was told."""

    at: Stamp
    result: str
    recorded_ms: int
    told_in: str
    position: int
    entry: Any


class Results:
    """Tests with their results, by the test: each later result is joined to the test it names."""

    def __init__(self, about: Mapping[str, Sequence[Timed]] = _NONE) -> None:
        self._about = about

    def with_changes(
        self, gone: Sequence[Timed], more: Sequence[Timed]
    ) -> tuple["Results", list[Tested], list[Tested]]:
        """Give the results without some entries and with further ones, and the tests that go and that come by it."""
        found = Results(refiled(self._about, gone, more, _test_of, in_order))
        touched = dict.fromkeys(name for each in (*gone, *more) for name in _test_of(each))
        return found, self._tests(touched), found._tests(touched)

    def _tests(self, names: Iterable[str]) -> list[Tested]:
        return [tested for name in names for tested in _with_result(self._about.get(name, ()))]


def _with_result(told: Sequence[Timed]) -> Iterator[Tested]:
    """A result whose test is missing stands as its own test."""
    test = next((each for each in told if each.entry.of is None), None)
    later = [each for each in told if each.entry.of is not None]
    if test is None:
        yield from (_tested(each, each) for each in later)
    else:
        yield _tested(test, later[-1] if later else test)


def _test_of(timed: Timed) -> tuple[str]:
    return (timed.entry.of or timed.entry.id,)


def _tested(test: Timed, told: Timed) -> Tested:
    return Tested(test.at, told.entry.result, told.tapped_ms, told.entry.id, told.position, test.entry)


def tested_in_order(tested: Tested) -> tuple[int, str, int, int]:
    """Where a test stands among others in true time."""
    at = tested.at
    return at.at_ms, at.device, at.seq, tested.position


def plain(timed: Iterable[Timed]) -> list[Tested]:
    """Take checks as they are: their result is told when they are made."""
    return [Tested(each.at, each.entry.result, each.tapped_ms, each.entry.id, each.position, each.entry)
            for each in timed]
