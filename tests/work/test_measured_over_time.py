"""Readings stand in true order under what their passes shared; the cylinder is the one that was on at that time."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.record.book_of_lines import Record
from server.work.measured_over_time import measured_over_time
from tests.story.log import Tablet
from tests.work.small_shop import a_pass, open_shop, send


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    slate = Tablet("SLATE")
    send(
        made,
        slate.tell("0:10", "cylinder", line="N-P", on="C-1"),
        a_pass(slate, "2:00", "B", oxygen="9"),
        a_pass(slate, "1:00", "A", oxygen="8"),
        slate.tell("3:00", "cylinder", line="N-P", on="C-2", off="C-1"),
        a_pass(slate, "4:00", "C", oxygen="40", who="LEA"),
    )
    yield made
    made.close()


def by(record: Record, shared: str) -> dict[str, list[float]]:
    with record.reads() as reads:
        groups = measured_over_time(reads, "oxygen", shared)
    return {name: [each.value for each in found] for name, found in groups.items()}


def test_each_pass_is_under_its_own_cylinder_in_true_order(shop: Record):
    """What was logged later and happened earlier comes first; after the change the other cylinder is named."""
    assert by(shop, "purge cylinder") == {"C-1": [8, 9], "C-2": [40]}


def test_the_same_readings_by_line_and_by_welder(shop: Record):
    """One line fed them all; two people welded them."""
    assert by(shop, "purge line") == {"N-P": [8, 9, 40]}
    assert by(shop, "welder") == {"LEA": [40], "WEL": [8, 9]}
