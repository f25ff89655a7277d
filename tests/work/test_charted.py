"""A computed value is that of the formula over the seam as drawn, and the limit is that of the day's revision."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from server.record.book_of_lines import Record
from server.work.measured_over_time import Reading, measured_over_time
from tests.story.log import Tablet
from tests.work.small_shop import a_pass, open_shop, send


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    slate = Tablet("SLATE")
    send(made, first := a_pass(slate, "1:00"), a_pass(slate, "2:00", quarters=["q12", "q3"]))
    correction: dict[str, Any] = {
        "of": "SLATE:b1:1",
        "reason": "misread",
        "change": {"values": {"oxygen": a_value("12")}},
    }
    assert "SLATE:b1:1" in first["line"]
    send(made, slate.tell("3:00", "correction", **correction))
    yield made
    made.close()


def a_value(number: str) -> dict[str, str]:
    return {"value": number, "unit": "ppm", "how": "read", "by": "OX"}


def readings(record: Record, quantity: str) -> list[Reading]:
    with record.reads() as reads:
        return measured_over_time(reads, quantity, "bench")["N"]


def test_heat_input_is_the_arcs_power_over_its_length(shop: Record):
    """40 A at 10 V for 80 s over the drawn 100 mm are 0.32 kJ/mm, times the k of the limit 0.6; over half, twice."""
    assert [each.value for each in readings(shop, "heat_input")] == pytest.approx([0.192, 0.384])


def test_travel_is_the_drawn_length_over_the_arcs_time(shop: Record):
    """100 mm in 80 s are 75 mm/min; half a seam in the same time is half as fast."""
    assert [each.value for each in readings(shop, "travel")] == pytest.approx([75.0, 37.5])


def test_what_was_put_right_is_charted_as_it_stands(shop: Record):
    """A corrected reading shows its corrected value, the other pass its own."""
    assert [each.value for each in readings(shop, "oxygen")] == [12.0, 8.0]


def test_the_limit_is_that_of_the_procedure(shop: Record):
    """Every reading carries the limit it was welded under, and says what it was made as."""
    first = readings(shop, "oxygen")[0]
    assert (first.low, first.high, first.under) == (None, 20.0, "TUBE root")


def test_what_carries_no_value_is_left_out(shop: Record):
    """A pass without a hold time adds no point."""
    with shop.reads() as reads:
        assert measured_over_time(reads, "post_flow", "welder") == {}
