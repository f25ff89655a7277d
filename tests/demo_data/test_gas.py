"""Which cylinder hangs where: every line always has one, and the planted ones hang when the story says."""

from collections import Counter
from datetime import date
from itertools import pairwise

import pytest

from demo_data.generator.days import clock_of, show
from demo_data.generator.gas import LINES, PER_LOT, Gas
from tests.demo_data.told import Told, moment


@pytest.fixture
def gas(full: Told) -> Gas:
    """The gas of the whole history."""
    return full.shop.gas


def test_no_line_is_ever_without_a_cylinder(gas: Gas) -> None:
    """Each line has a cylinder before the first day, and every one taken off is the one that hung there."""
    for line in LINES:
        first, *later = gas.by_line[line]
        assert first.at < moment("2025-01-06", "06:00")
        assert first.off is None
        assert [change.off for change in later] == [change.on for change in gas.by_line[line][:-1]]


def test_a_cylinder_hangs_once_and_stands_in_its_lot(gas: Gas) -> None:
    """No cylinder comes back, each belongs to the fill lot it was delivered with, and a lot has twelve."""
    assert max(Counter(change.on for change in gas.changes).values()) == 1
    assert all(change.on in gas.cylinders[change.lot] for change in gas.changes)
    assert {len(codes) for codes in gas.cylinders.values()} == {PER_LOT}
    assert all(gas.lots[change.lot] < clock_of(change.at).date() for change in gas.changes)


def test_the_bad_cylinder_hangs_from_tuesday_to_wednesday(gas: Gas) -> None:
    """AR-0309, AR-0317 and AR-0318 follow one another on the purge line of booth 1; AR-0319 is never connected."""
    assert gas.on("B1-P", moment("2025-03-18", "13:04")) == "AR-0309"
    assert gas.on("B1-P", moment("2025-03-18", "13:05")) == "AR-0317"
    assert gas.on("B1-P", moment("2025-03-19", "16:25")) == "AR-0318"
    assert gas.cylinders["FL-25-0311"][0] == "AR-0312"
    assert "AR-0319" not in {change.on for change in gas.changes}


def test_purge_cylinders_are_changed_when_the_story_says(gas: Gas) -> None:
    """Until the revision there are nineteen changes on the purge lines, on the days the story lists."""
    until = moment("2025-05-05", "00:00")
    days = {
        line: [show(change.at)[5:10] for change in gas.by_line[line][1:] if change.at < until]
        for line in ("B1-P", "B2-P")
    }
    assert days["B1-P"] == [
        "01-17", "01-30", "02-12", "02-25", "03-10", "03-18", "03-19", "04-01", "04-21", "05-02"
    ]  # fmt: skip
    assert days["B2-P"] == ["01-10", "01-23", "02-05", "02-18", "03-03", "03-14", "03-27", "04-09", "04-29"]


def test_changes_come_round(gas: Gas) -> None:
    """A torch cylinder lasts about seven working days, a purge cylinder about nine; none is changed on closed days."""
    for line in LINES:
        days = [clock_of(change.at).date() for change in gas.by_line[line][1:]]
        lasted = sorted((later - day).days for day, later in pairwise(days))
        assert 8 <= lasted[len(lasted) // 2] <= 15
        assert all(day.weekday() < 5 for day in days)
    assert gas.changes_on("B2-P", date(2026, 2, 13))[0].on == "AR-0688"
