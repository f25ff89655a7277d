"""A state of the shop is read into by one thread while another makes the next state of it."""

import sys
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest

from server.occasions import failed as failing
from server.occasions.accepted import Accepted
from server.occasions.days import Days
from server.occasions.gas import GasRules, GasTable
from server.occasions.rods import Rods
from server.occasions.uses import Uses

_MANY = 20_000
_TESTS = failing.Tests({}, {}, {}, {}, frozenset(), {})
_DAYS = Days("UTC")
_RULES = GasRules({}, {}, frozenset(), _DAYS, Accepted((), None))
_NOTHING: tuple[tuple[()], tuple[()]] = ((), ())


def _failed() -> tuple[Callable[[str], Any], Callable[[], Any]]:
    before = failing.Failed(_TESTS, _RULES.accepted, _DAYS)
    return lambda name: before.of("bead", name), lambda: failing.Failed(_TESTS, _RULES.accepted, _DAYS, before)


def _stories() -> tuple[Callable[[str], Any], Callable[[], Any]]:
    before = GasTable(_RULES)

    def read(name: str) -> None:
        before.at(name, 0)
        before.stops(name)

    return read, lambda: before.with_changes(_RULES, _NOTHING, _NOTHING)


def _sleeves() -> tuple[Callable[[str], Any], Callable[[], Any]]:
    before = Rods({}, {}, {})
    return before.openings, lambda: Rods({}, {}, {}, before)


def _passes() -> tuple[Callable[[str], Any], Callable[[], Any]]:
    gas = GasTable(_RULES)
    before = Uses(gas, _DAYS)
    return lambda name: (before.analyser_at(name, 0), before.welded(name)), lambda: before.with_changes((), (), gas)


@pytest.fixture(autouse=True)
def _in_quick_turns() -> Iterator[None]:
    """Threads take turns as often as they can."""
    usual = sys.getswitchinterval()
    sys.setswitchinterval(1e-6)
    yield
    sys.setswitchinterval(usual)


@pytest.mark.parametrize("made", [_failed, _stories, _sleeves, _passes])
def test_reading_into_a_state_does_not_hinder_the_next(made: Callable[[], tuple[Any, Any]]):
    """However the turns fall, the next state is made, again and again, while names are asked of the one before."""
    read, carry = made()
    with ThreadPoolExecutor(1) as beside:
        reading = beside.submit(lambda: [read(f"N{number}") for number in range(_MANY)])
        while not reading.done():
            carry()
        reading.result()
