"""The guide's figures: which member clears last, and how long heat stays in a seam."""

import time
from typing import Any

import pytest

from server.facts.design import Design, Hole, Joint, Member, PurgeSetup
from server.work.bench_guide import hold_told, pause_told, setup_told
from server.work.reckoned import is_reckoning

TUBES = (
    Member(id="A", title="main tube", metal="Ti", od_mm=38.1, wall_mm=0.9, length_mm={"M": 600.0}),
    Member(id="B", title="side tube", metal="Ti", od_mm=15.9, wall_mm=0.9, length_mm={"M": 450.0}),
)
JOINT = Joint(
    id="J1", title="side on main", parts=("B", "A"), procedure="P", seam_mm=60, inside="N", at="N", stage="one"
)
SETUP = PurgeSetup(
    id="U", stage="one", members=("A", "B"), inlet="A", inlet_title="left cap", closed=("right cap",),
    outlets=(Hole(member="A", diameter_mm=5, title="top cap"),), volume_l={"M": 0.7},
)  # fmt: skip


def drawing(*holes: Hole) -> Design:
    return Design(
        name=f"D{len(holes)}", title="D", kind="frame", sizes=("M",), nodes={"N": {"M": (0.0, 0.0)}}, members=TUBES,
        joints=(JOINT,), holes=holes, setups=(SETUP,),
    )  # fmt: skip


def card(**bounds: tuple[str | None, str | None]) -> list[dict[str, Any]]:
    lines = [{"name": name, "low": low, "high": high} for name, (low, high) in bounds.items()]
    return [{"procedure": "P", "lines": lines}]


PURGED = card(pre_purge_flow=("5", "9"), oxygen=(None, "20"))
JOINED = Hole(member="A", into="B", diameter_mm=6)


def test_a_set_up_is_told_in_words_with_its_slowest_member() -> None:
    """Inlet, outlets and what is closed are named as on the drawing; the dead end is the one that clears last."""
    told = setup_told(drawing(JOINED), "M", SETUP, PURGED)
    assert (told["inlet"], told["outlets"], told["closed"]) == ("left cap", ["top cap"], ["right cap"])
    assert [each["flow_l_per_min"] for each in told["forecast"]] == [5.0, 7.0, 9.0]
    assert {each["slowest"] for each in told["forecast"]} == {"side tube"}


def test_a_member_no_gas_can_reach_gives_no_forecast() -> None:
    """Without a hole into the side tube there is nothing to reckon, and nothing is made up."""
    assert setup_told(drawing(), "M", SETUP, PURGED)["forecast"] == []


def test_without_a_flow_on_the_card_nothing_is_reckoned() -> None:
    """A procedure that names no purge flow, or no oxygen, gives no forecast."""
    assert setup_told(drawing(JOINED), "M", SETUP, card(oxygen=(None, "20")))["forecast"] == []


def test_more_heat_stays_longer() -> None:
    """The band is in order, and twice the heat allowed stays hot longer at every end of it."""
    cards = [card(heat_input=(None, heat), travel=("55", None)) for heat in ("0.15", "0.3")]
    cool, hot = (hold_told(drawing(JOINED), JOINT, each) for each in cards)
    assert cool is not None
    assert hot is not None
    assert cool["low"] < cool["expected"] < cool["high"]
    assert all(hot[end] > cool[end] for end in ("low", "expected", "high"))


@pytest.mark.parametrize("known", [card(travel=("55", None)), card(heat_input=(None, "0.3")), []])
def test_without_heat_or_travel_there_is_no_hold(known: list[dict[str, Any]]) -> None:
    """Where the card limits neither heat nor travel, or there is no card, no hold is told."""
    assert hold_told(drawing(JOINED), JOINT, known) is None


def paused(cards: list[dict[str, Any]], joint: Joint = JOINT) -> dict[str, Any] | None:
    """Ask, wait until it is reckoned beside, and ask again, as a tablet does a minute later."""
    pause_told(drawing(JOINED), joint, cards)
    last = time.monotonic() + 180
    while is_reckoning():
        assert time.monotonic() < last
        time.sleep(0.05)
    return pause_told(drawing(JOINED), joint, cards)


def test_the_order_of_quarters_starts_across_and_says_how_long_to_pause() -> None:
    """After 12 comes 6 o'clock; a lower temperature to meet asks a longer pause, in a band for a whole lap."""
    known = {"heat_input": (None, "0.3"), "travel": ("55", None)}
    cool, warm = (paused(card(**known, interpass=(None, at))) for at in ("65", "150"))
    assert cool is not None
    assert warm is not None
    assert cool["order"][:2] == ["q12", "q6"]
    assert sorted(cool["order"]) == ["q12", "q3", "q6", "q9"]
    assert cool["between_s"] > warm["between_s"] > 0
    assert cool["lap_s"]["low"] < cool["lap_s"]["expected"] < cool["lap_s"]["high"]


def test_without_an_interpass_there_is_an_order_and_no_pause() -> None:
    """Where the card limits no temperature between passes, no pause is made up."""
    told = paused(card(heat_input=(None, "0.3"), travel=("55", None)))
    assert told is not None
    assert (told["between_s"], told["lap_s"], told["limit_c"], len(told["order"])) == (None, None, None, 4)


def test_what_takes_long_is_none_until_it_is_reckoned() -> None:
    """The first sheet does not wait for the pauses; they stand on the next one."""
    cards = card(heat_input=(None, "0.29"), travel=("55", None), interpass=(None, "65"))
    assert pause_told(drawing(JOINED), JOINT, cards) is None
    assert paused(cards) is not None
