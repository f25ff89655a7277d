"""Which bench a device opens."""

import pytest

from server.facts.equipment import Bench
from server.pages.bench.page import bench_of

BENCHES = {
    "B2": Bench(id="B2", title="two", torch_line="t", purge_line="p", devices=("TAB-2",)),
    "B1": Bench(id="B1", title="one", torch_line="t", purge_line="p", devices=("TAB-1",)),
}


@pytest.mark.parametrize(
    ("device", "asked", "bench"),
    [("TAB-2", None, "B2"), ("TAB-2", "B1", "B1"), ("desk", None, "B1"), ("TAB-2", "B9", "B2")],
)
def test_a_device_opens_its_own_bench_unless_another_is_asked_for(device: str, asked: str | None, bench: str) -> None:
    """A tablet opens the bench that names it; a device of no bench the first; an unknown bench is not taken."""
    assert bench_of(device, BENCHES, asked) == bench


def test_a_shop_without_benches_still_opens() -> None:
    """Before any bench is told, the page opens all the same and says so."""
    assert bench_of("TAB-1", {}) == "none"
