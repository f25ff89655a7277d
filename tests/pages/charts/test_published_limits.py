"""A page that is fed with a printed example shows the printed limits.

Individuals: NIST/SEMATECH e-Handbook 6.3.2.2, mean 50.81, limits 55.8041 and 45.8159 (read from a public verification
table). Capability: Cpk 1.15 from 45 readings lies between 0.89 and 1.41 (Quality Digest, May 2000, read).
"""

import re
from collections.abc import Iterator
from math import sqrt
from pathlib import Path

import pytest

from server.pages.charts.page import charts_of, fit_of
from server.work.measured_over_time import Reading
from tests.pages.shop_app import ShopApp
from tests.published.test_nist_e_handbook import FLOW_RATES
from tests.story.log import LINES, Tablet, value
from tests.work.small_shop import send

NEWEST_TEN = FLOW_RATES[10:]


@pytest.fixture(scope="module")
def fed(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ShopApp]:
    made = ShopApp(Path(tmp_path_factory.mktemp("fed")))
    slate = Tablet("SLATE")
    about = {"run": "root", "setup": "one", "machine": "PW", "sleeve": "none", **LINES}
    told = [{"mean_current": value(str(each), "A", "counted", "PW")} for each in NEWEST_TEN]
    clocks = [f"1:{10 + place}" for place in range(10)]
    passes = zip(clocks, told, strict=True)
    send(made.record, *(slate.on_joint(clock, "pass", "A", values=each, **about) for clock, each in passes))
    yield made
    made.record.close()


def test_the_page_shows_the_printed_limits(fed: ShopApp):
    """Ten passes that carry the printed readings are charted with the printed centre and limits."""
    text = fed.get("/charts?quantity=mean_current&shared=welder", "LEA").text
    singles = text.partition("Single readings")[2].partition("</svg>")[0]
    assert "centre 50.81<" in singles
    assert "upper limit 55.804<" in singles
    assert "lower limit 45.816<" in singles


def test_every_point_leads_to_its_entry(fed: ShopApp):
    """Each of the ten points is a link to the joint at the very entry, and the joint's page has that entry's place."""
    text = fed.get("/charts?quantity=mean_current&shared=welder", "LEA").text
    singles = text.partition("Single readings")[2].partition("</svg>")[0]
    named = re.findall(r'href="/history/SW-1/A#([^"]+)"', singles)
    assert named == [f"SLATE%3Ab1%3A{number}" for number in range(1, 11)]
    joint = fed.get("/history/SW-1/A", "LEA").text
    assert all(f'<tr id="SLATE:b1:{number}"' in joint for number in range(1, 11))


def test_capability_of_readings_with_the_printed_mean_and_spread():
    """45 readings at 1.15 times three spreads from their only limit have a Cpk of 1.15 (0.89 to 1.41)."""
    half = [-sqrt(44 / 44), sqrt(44 / 44)] * 22
    readings = [Reading(at, "F", "J", f"e{at}", each, None, 1.15 * 3) for at, each in enumerate([*half, 0.0])]
    found = fit_of(readings)
    assert found is not None
    assert found.it.count == 45
    cpk = found.it.cpk
    assert [round(each, 2) for each in (cpk.estimate, cpk.low, cpk.high)] == [1.15, 0.89, 1.41]


def test_capability_takes_only_readings_under_one_limit():
    """Readings under another limit are counted out, and too few under one limit give none."""
    under = [Reading(at, "F", "J", f"e{at}", float(at % 3), None, 9.0) for at in range(20)]
    others = [Reading(50 + at, "F", "J", f"o{at}", 5.0, None, 20.0) for at in range(7)]
    assert (found := fit_of([*under, *others])) is not None
    assert (found.it.count, found.left_out, found.high) == (20, 7, 9.0)
    assert fit_of(under[:19]) is None


def test_groups_with_too_few_readings_are_named():
    """Four readings make no chart; the group is told by name instead."""
    few = [Reading(at, "F", "J", f"e{at}", 1.0) for at in range(4)]
    assert charts_of({"W9": few}) == ((), ("W9",))
