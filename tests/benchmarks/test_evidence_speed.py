"""Sealing and rechecking stay within a small multiple of bare hashing."""

from collections.abc import Callable

import pytest

from tests.benchmarks.evidence_speed import BARE, works_on
from tests.benchmarks.turns import multiple


@pytest.fixture(scope="module")
def works() -> dict[str, Callable[[], object]]:
    """Each kind of work on ten thousand lines."""
    return works_on(10_000)


@pytest.mark.parametrize(
    ("name", "most"),
    [
        ("leaf, frontier and one chain", 12.0),
        ("leaf, frontier and four chains", 25.0),
        ("recheck with four chains and seals", 60.0),
    ],
)
def test_sealing_costs_little_more_than_hashing(works: dict[str, Callable[[], object]], name: str, most: float):
    """Appending with one chain stays under 12 times bare SHA-256, with four under 25, a recheck under 60."""
    assert multiple(works[name], works[BARE], most, rounds=3) <= most
