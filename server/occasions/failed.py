"""Every failed check of the shop, by what it was about; read off a thing's own tests when somebody asks for it."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from server.facts.equipment import Calibration
from server.facts.layered import differing
from server.occasions.accepted import Accepted
from server.occasions.days import Days
from server.occasions.failed_checks import (
    FailedCheck,
    failed_beads,
    failed_calibrations,
    failed_coupons,
    failed_cross_checks,
)
from server.occasions.tested import Tested, tested_in_order

_Of = Mapping[str, Sequence[Tested]]


_KINDS = ("bead", "coupon", "calibration", "cross-check")


class Tests(NamedTuple):
    """What can fail: beads by line, coupons by welder, checks by what they are about, calibrations by instrument."""

    beads: _Of
    coupons: _Of
    checks: _Of
    calibrations: Mapping[str, list[Calibration]]
    purge_lines: frozenset[str]
    told: Mapping[str, int]
    """In which order calibrations were told."""


class Failed:
    """The failed checks by kind and thing; what was read before is kept where nothing more was tested."""

    def __init__(self, tests: Tests, accepted: Accepted, days: Days, before: "Failed | None" = None) -> None:
        """`before` read by the same acceptance figures."""

        def opens_a_set(check: Tested) -> bool:
            return "cross_check_opens_a_set" in accepted.at(days.day_of(check.at.at_ms))

        self._tests = tests
        self._read: Mapping[str, Callable[[str], list[FailedCheck]]] = {
            "bead": lambda line: failed_beads(line, tests.beads.get(line, ()), line in tests.purge_lines),
            "coupon": lambda welder: failed_coupons(welder, tests.coupons.get(welder, ())),
            "calibration": lambda name: failed_calibrations(name, tests.calibrations.get(name, ())),
            "cross-check": lambda name: failed_cross_checks(name, tests.checks.get(name, ()), opens_a_set),
        }
        self._known: dict[tuple[str, str], list[FailedCheck]] = {}
        self._every: Sequence[FailedCheck] | None = None
        if before and before._tests.purge_lines == tests.purge_lines:
            old, now = before._by_kind(), self._by_kind()
            # Whoever looks at the state before goes on reading into it.
            self._known = before._known.copy()
            for kind in now:
                for thing in differing(old[kind], now[kind]):
                    self._known.pop((kind, thing), None)
            if all(old[kind] is now[kind] for kind in now):
                self._every = before._every

    def of(self, kind: str, thing: str | None) -> list[FailedCheck]:
        """Give the failed checks of one kind about one thing."""
        if not thing:
            return []
        found = self._known.get((kind, thing))
        if found is None:
            found = self._known[kind, thing] = self._read[kind](thing)
        return found

    def every(self) -> Sequence[FailedCheck]:
        """Give every failed check: beads line by line as the lines came into use, all others in the order of time."""
        if self._every is None:
            things = ((kind, thing) for kind, tested in self._by_kind().items() for thing in tested)
            self._every = self.in_order(each for kind, thing in things for each in self.of(kind, thing))
        return self._every

    def in_order(self, failed: Iterable[FailedCheck]) -> list[FailedCheck]:
        """Give some failed checks in the order of all."""
        return sorted(failed, key=self._order)

    def _order(self, failed: FailedCheck) -> tuple[Any, ...]:
        line = tested_in_order(self._tests.beads[failed.thing][0]) if failed.kind == "bead" else ()
        at = failed.tested
        return _KINDS.index(failed.kind), line, at.at_ms, at.device, at.seq, self._tests.told.get(failed.check, 0)

    def _by_kind(self) -> Mapping[str, Mapping[str, object]]:
        tests = self._tests
        return {
            "bead": tests.beads,
            "coupon": tests.coupons,
            "calibration": tests.calibrations,
            "cross-check": tests.checks,
        }
