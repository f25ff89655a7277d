"""A procedure's text becomes the procedure."""

import hashlib
from datetime import date

import pytest

from server.facts.limit import Limit
from tests.procedures.ladder import LADDER, ladder, refused


def limit_of(name: str) -> Limit:
    return next(limit for limit in ladder().limits if limit.name == name)


def test_limits_are_sealed_in_the_unit_of_the_house_and_keep_the_shops_own() -> None:
    """Cubic feet an hour are sealed as litres a minute, and 15 to 20 CFH can still be shown."""
    flow = limit_of("torch_flow")
    assert flow.unit == "L/min"
    assert flow.low == pytest.approx(7.0792116)
    assert flow.high == pytest.approx(9.4389489)
    assert (flow.own_unit, flow.own_low, flow.own_high) == ("CFH", 15, 20)
    assert limit_of("interpass").high == 60
    assert limit_of("oxygen").high == 30
    assert limit_of("heat_input").high == pytest.approx(0.25)


def test_a_limit_in_the_sealed_unit_has_no_own_one() -> None:
    """Where the shop writes the house's unit there is nothing else to show."""
    assert (limit_of("peak_current").own_unit, limit_of("peak_current").own_low) == (None, None)


def test_what_is_left_out_comes_from_around_the_limit() -> None:
    """A limit starts with its revision and says the usual words beyond it."""
    assert limit_of("oxygen").valid_from == date(2031, 2, 3)
    assert limit_of("oxygen").beyond.startswith("Do not strike")


def test_a_limit_may_start_later_than_its_revision() -> None:
    """A limit's own first day and its own words beyond it go before the usual ones."""
    more = 'interpass = { valid_from = 2031-05-01, beyond = "Have tea.", high'
    found = next(limit for limit in ladder(**{"interpass = { high": more}).limits if limit.name == "interpass")
    assert (found.valid_from, found.beyond) == (date(2031, 5, 1), "Have tea.")


def test_the_rest_of_the_paper_is_carried_over() -> None:
    """Metals, walls, diameters, fillers, records and cautions are what the file says."""
    told = ladder().model_dump()
    assert told["base_metals"] == ("titanium tube",)
    assert told["filler_classes"] == ("ERTi-2",)
    assert told["thickness_mm"] == (0.9, 1.2)
    assert told["diameter_mm"] == (25.4, None)
    assert told["supports"][0]["ranges"]["torch_flow"] == (7, 10)
    assert told["supports"][0]["diameter_mm"] == (19, None)
    assert told["cautions"][0]["where"] == "at the arc"
    assert limit_of("rod").allowed == ("1.1",)
    assert ladder().called == "LD rev 1"


def test_the_digest_is_that_of_the_file() -> None:
    """The digest names the bytes that were read, so one changed letter gives another."""
    assert ladder().sha256 == hashlib.sha256(LADDER.encode()).hexdigest()
    assert ladder(**{"Wipe it.": "Wipe it!"}).sha256 != ladder().sha256


def test_a_missing_table_is_explained() -> None:
    """A procedure without its cautions is told what belongs there."""
    start = LADDER.index("[[cautions]]")
    (found,) = refused({LADDER[start:]: ""})
    assert found.field == "cautions"
    assert "authority" in found.expected


def test_a_plan_that_names_no_n_is_refused_on_its_line() -> None:
    """One in n needs its n."""
    (found,) = refused({", n = 3": ""})
    assert (found.line, found.field) == (16, "limits.interpass.plan")
    assert "one in n" in found.expected
