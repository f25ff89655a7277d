"""Limits in the words of the shop."""

import pytest

from server.facts.limit import Limit, MeasuringPlan
from server.procedures.wording import limit_called, plan_words, span_words
from tests.procedures.ladder import ladder

SAID: dict[tuple[str, str | None], Limit] = {(limit.name, limit.side): limit for limit in ladder().limits}


@pytest.mark.parametrize(
    ("name", "side", "words"),
    [
        ("torch_flow", None, "15 to 20 CFH"),
        ("interpass", None, "at most 140 °F"),
        ("peak_current", None, "60 to 90 A"),
        ("rod", None, "1.1 mm"),
        ("colour", "inside", "at most grade 2"),
    ],
)
def test_a_range_is_said_in_the_unit_the_shop_wrote(name: str, side: str | None, words: str) -> None:
    """What the shop wrote in its own unit is shown so, not in the sealed one."""
    assert span_words(SAID[name, side]) == words


def test_an_open_range_says_which_end_it_has() -> None:
    """At least and at most are not confused, a cup keeps its number sign."""
    limit = SAID["peak_current", None]
    assert span_words(limit.model_copy(update={"high": None})) == "at least 60 A"
    assert span_words(limit.model_copy(update={"high": None, "low": 8.0, "unit": "#"})) == "at least #8"


def test_a_limit_is_called_with_its_place() -> None:
    """Side and zone belong to what a colour limit is called."""
    assert limit_called(SAID["colour", "inside"]) == "weld colour, inside, bead"
    assert limit_called(SAID["oxygen", None]) == "purge oxygen at arc start"


def test_a_measuring_plan_is_said_in_words() -> None:
    """When, how and where a reading is wanted, and when it is not."""
    plan = MeasuringPlan(when="one in n", n=4, how="typed", not_tacks=True, where=("F", "P"), picture=True)
    assert plan_words(plan) == "one joint in 4, not on tacks, inside view F or P, typed, with picture"
    assert plan_words(MeasuringPlan(when="never")) == "not asked"
