"""A joint's life runs from the shipment after its last pass to a claim that names it, to its remaking, or to today."""

import pytest

from server.facts.moment import show_moment
from server.record.book_of_lines import Record, now_ms
from server.work.claims import ClaimTold, open_claim
from server.work.field_lives import field_lives
from server.work.joint_life import JointLife, joint_life
from server.work.known_shop import shop_now
from server.work.refusal import NotThere
from tests.story.log import Tablet, clock_now
from tests.work.small_shop import send, tell

YEAR_MS = 365.25 * 86_400_000


def ship(shop: Record, name: str = "S-1", minutes_ago: int = 1) -> int:
    """The frame leaves the house some minutes ago."""
    at_ms = now_ms() - minutes_ago * 60_000
    tell(shop, kind="shipment", id=name, frame="SW-1", customer="CU-1", at=show_moment(at_ms))
    return at_ms


def claim(shop: Record, joint: str) -> None:
    told = ClaimTold("SW-1", joint, "", "CU-1", now_ms() - 1000, now_ms() - 500, "it creaks", "OWN")
    shop.write(lambda reads: open_claim(reads, told, now_ms())).result()


def ask(shop: Record, *about: str) -> JointLife:
    with shop.reads() as reads:
        return joint_life(reads, *about)


def design(shop: Record) -> str:
    with shop.reads() as reads:
        return reads.registers().packets["SW-1"].design


def test_what_never_left_has_no_life(shop: Record):
    """Before a shipment there is nothing to count, and no curve."""
    found = ask(shop)
    assert (found.together, found.curve, found.rates) == (None, None, ())


def test_a_joint_counts_from_its_shipment(shop: Record):
    """Three joints shipped a minute ago and none claimed: no failure, an upper end all the same, no fit."""
    ship(shop)
    together = ask(shop).together
    assert together
    assert (together.joints, together.failures) == (3, 0)
    assert together.rate.low == 0.0
    assert together.rate.high == pytest.approx(3.689 / together.years, rel=1e-3)
    assert ask(shop).fit is None
    assert "failures so far: 0; a life curve is fitted from 5 on" in ask(shop).fit_refused


def test_a_claim_ends_the_life_of_the_joint_it_names(shop: Record):
    """The claimed joint's own rate is told first; the other two still hold; the curve falls by a third."""
    ship(shop)
    claim(shop, "B")
    found = ask(shop)
    assert [(each.joint, each.failures) for each in found.rates] == [("B", 1), ("A", 0), ("C", 0)]
    assert found.curve
    assert found.curve.steps[-1].survival == pytest.approx(2 / 3)
    assert [each.joint for each in ask(shop, design(shop), "B").rates] == ["B"]


def test_the_same_is_answered_until_something_is_told(shop: Record):
    """Asked twice it is worked out once; after each further line it is told anew, by group too."""
    states = []
    for tell_more in (lambda: ship(shop), lambda: claim(shop, "B"), lambda: claim(shop, "A")):
        tell_more()
        found = ask(shop), ask(shop, design(shop), "B")
        assert (ask(shop), ask(shop, design(shop), "B")) == found
        assert ask(shop) is found[0]
        states.append([each.together and each.together.failures for each in found])
    assert states == [[0, 0], [1, 1], [2, 1]]


def test_a_claim_that_names_no_joint_is_left_out_and_said(shop: Record):
    """It counts against no joint and stands among what was left out."""
    ship(shop)
    claim(shop, "")
    found = ask(shop)
    assert found.together
    assert found.together.failures == 0
    assert [why for _, why in found.left_out] == ["names no joint"]


def test_a_frame_that_came_back_is_not_in_use(shop: Record):
    """Its joints' lives end where it came back, for as long as it stays; a claim told only then still counts."""
    left_ms = ship(shop, minutes_ago=10)
    send(shop, Tablet("PAD").tell(clock_now(-5), "stage", frame="SW-1", stage="returned"))
    with shop.reads() as reads:
        found = field_lives(shop_now(reads).tables)
    (ended,) = {each for of_one in found.ended.values() for each in of_one}
    assert not any(found.out.values())
    assert ended[0] == left_ms
    assert ended[1] - ended[0] == pytest.approx(5 * 60_000, abs=60_000)
    claim(shop, "B")
    assert (together := ask(shop).together)
    assert (together.joints, together.failures) == (3, 1)
    ship(shop, "S-2")
    with shop.reads() as reads:
        assert set(map(tuple, field_lives(shop_now(reads).tables).out.values())) == {(left_ms,)}


def test_what_no_drawing_has_is_said(shop: Record):
    """A design or a joint that is not there is refused by name."""
    with pytest.raises(NotThere, match="design: 'NONE' is no drawing"):
        ask(shop, "NONE")
    with pytest.raises(NotThere, match="joint: 'Z' is no joint"):
        ask(shop, design(shop), "Z")
