"""Every level against all the others."""

import numpy as np
import pytest
from scipy.stats import false_discovery_control, hypergeom

from server.statistics.errors import UnusableInput
from server.statistics.screen import screen

TALLIES = {"cylinder 4": (3, 12), "cylinder 5": (2, 90), "cylinder 6": (2, 98)}


def test_as_scipy() -> None:
    """p is the mid-P of scipy's hypergeometric tail and q its false discovery control, worst first."""
    rows = screen(TALLIES)
    laws = {level: (hypergeom(200, 7, seen), faults) for level, (faults, seen) in TALLIES.items()}
    chances = {level: law.sf(faults - 1) - law.pmf(faults) / 2 for level, (law, faults) in laws.items()}
    assert rows[0].level == "cylinder 4"
    assert {row.level: row.p for row in rows} == pytest.approx(chances, abs=1e-12)
    q = dict(zip(chances, false_discovery_control(list(chances.values())), strict=True))
    assert {row.level: row.q for row in rows} == pytest.approx(q, abs=1e-12)


def test_a_row_carries_its_figures() -> None:
    """A row shows its tally, its share with interval and its ratio to the rest."""
    row = screen(TALLIES)[0]
    assert (row.faults, row.seen, row.share.estimate) == (3, 12, 0.25)
    assert row.ratio.estimate == pytest.approx((3 / 12) / (4 / 188))


def test_chance_alone_rarely_reaches_q() -> None:
    """Seven faults strewn over twenty cylinders give some p under 0.05 often, some q under 0.05 seldom."""
    draws = np.random.default_rng(3)
    small_p = small_q = 0
    for _ in range(300):
        faults = np.bincount(draws.choice(200, 7, replace=False) % 20, minlength=20)
        rows = screen({str(level): (int(count), 10) for level, count in enumerate(faults)})
        small_p += min(row.p for row in rows) < 0.05
        small_q += min(row.q for row in rows) < 0.05
    assert small_p > 90
    assert small_q < 21


def test_two_levels_are_enough() -> None:
    """Two levels are each the other's rest."""
    first, second = screen({"a": (3, 12), "b": (4, 188)})
    assert first.level == "a"
    assert first.ratio.estimate == pytest.approx(1.0 / second.ratio.estimate)


@pytest.mark.parametrize("tallies", [{}, {"only": (1, 4)}])
def test_one_level_has_nothing_beside_it(tallies: dict[str, tuple[int, int]]) -> None:
    """Fewer than two levels are refused."""
    with pytest.raises(UnusableInput, match="two levels or more"):
        screen(tallies)
