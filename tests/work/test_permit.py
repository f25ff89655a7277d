"""A gate says what it waits for: unjudged entries, work sent back and not looked at, scrap, held joints, tablets."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.facts.moment import show_moment
from server.record.book_of_lines import Record, now_ms
from server.work.judge_new import judge_new
from server.work.legal_hold import HoldAsked, hold
from server.work.permit import GateShut
from server.work.sent_delivery import from_request
from server.work.signature import Signing
from server.work.take_deliveries import take_deliveries
from tests.story.log import Tablet, clock_now
from tests.work.small_shop import OWNER, a_pass, accept_all, open_shop, pass_gate, send, sign, tell, weld_it_all

WELDER = Signing("WEL", "", "SLATE", "welder", "released")


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    send(made, *weld_it_all(Tablet("SLATE")))
    accept_all(made)
    yield made
    made.close()


def any_key(record: Record, joint: str = "B") -> str:
    with record.reads() as reads:
        return next(each.key for each in reads.findings(frame="SW-1") if f"/{joint}#" in each.key)


def test_in_its_order_a_frame_goes_out(shop: Record):
    """Inspected, released, shipped: the shipment stands in the register with the packet's customer, and only once."""
    for gate in ("final inspection", "release", "ship"):
        pass_gate(shop, gate)
        judge_new(shop)
    with shop.reads() as reads:
        assert [(each.frame, each.customer) for each in reads.registers().shipments.values()] == [("SW-1", "CU-1")]
    judge_new(shop)
    with pytest.raises(GateShut, match="has left the house already"):
        pass_gate(shop, "ship")


def test_what_is_not_judged_yet_keeps_the_gate_shut(shop: Record):
    """A bad pass that is taken and not judged cannot be overtaken by a signature."""
    late = a_pass(Tablet("PAD"), "5:00", "C", oxygen="300")
    take_deliveries(shop, [from_request(late, "sent", now_ms())]).result()
    with pytest.raises(GateShut, match="is being judged"):
        pass_gate(shop, "final inspection")


def test_rework_waits_for_somebody_elses_look(shop: Record):
    """Sending a joint to rework opens nothing until somebody who did not weld it has looked at it afterwards."""
    sign(shop, "rework", [any_key(shop)], OWNER)
    judge_new(shop)
    with pytest.raises(GateShut, match="not looked at since"):
        pass_gate(shop, "final inspection")
    own, early, other = Tablet("SLATE", "b2"), Tablet("PAD", "b2"), Tablet("PAD", "b3")
    send(shop, own.on_joint(clock_now(5), "look", "B", side="outside", grade=0))
    send(shop, early.on_joint("5:00", "look", "B", side="outside", grade=0, who="LEA"))
    with pytest.raises(GateShut, match="not looked at since"):
        pass_gate(shop, "final inspection")
    send(shop, other.on_joint(clock_now(5), "look", "B", side="outside", grade=0, who="LEA"))
    accept_all(shop)
    pass_gate(shop, "final inspection")


def test_a_scrapped_joint_is_made_anew_first(shop: Record):
    """Scrap of a joint that was not made again keeps the frame in the house."""
    sign(shop, "scrap", [any_key(shop)], OWNER)
    judge_new(shop)
    with pytest.raises(GateShut, match=r"B is scrap by D-.* and not made again yet"):
        pass_gate(shop, "final inspection")


def test_a_joint_held_by_a_nonconformity_stays(shop: Record):
    """While a nonconformity holds a joint the frame stays; once it is closed the frame goes."""
    paper = {"kind": "nonconformity", "id": "NC-1", "title": "grey bead", "held": ["SW-1/B#1"]}
    tell(shop, **paper)
    judge_new(shop)
    with pytest.raises(GateShut, match="held by NC-1"):
        pass_gate(shop, "final inspection")
    tell(shop, **paper, closed=show_moment(now_ms()))
    judge_new(shop)
    accept_all(shop)
    pass_gate(shop, "final inspection")


def test_a_tablet_with_the_frame_open_is_waited_for(shop: Record):
    """Where the acceptance file asks for it, a tablet that opened the frame and was not heard keeps it."""
    slate = Tablet("PAD")
    send(shop, slate.tell("6:00", "opened", frame="SW-1", act="opened"))
    accept_all(shop)
    pass_gate(shop, "final inspection")
    asked = {"name": "tablets_heard", "unit": "yes", "value": "1", "source": "lead", "valid_from": "2020-01-01"}
    tell(shop, kind="acceptance", id="tablets_heard", **asked)
    judge_new(shop)
    accept_all(shop)
    with pytest.raises(GateShut, match="PAD had this frame open"):
        pass_gate(shop, "release")


def test_a_permission_needs_the_right_role(shop: Record):
    """A welder's signature gives no permission, with or without a reason to override."""
    with pytest.raises(GateShut, match="quality lead or an owner"):
        pass_gate(shop, "final inspection", WELDER)


def test_both_roles_in_one_hand_are_said(shop: Record):
    """An override signed twice by one person says so on each signature, for ever."""
    both = [Signing("OWN", "", "desk", role, "override") for role in ("owner", "quality lead")]
    pass_gate(shop, "release", *both, override="the customer waits")
    with shop.reads() as reads:
        given = list(reads.registers().permissions.values())[-1]
    assert [each.both_roles_one_person for each in given.signatures] == [True, True]


def test_a_frame_that_came_back_goes_out_again(shop: Record):
    """Shipped and returned, it may be shipped once more; each shipment stands in the register."""
    for gate in ("final inspection", "release", "ship"):
        pass_gate(shop, gate)
        judge_new(shop)
    send(shop, Tablet("SLATE", "b9").tell(clock_now(1), "stage", frame="SW-1", stage="returned"))
    pass_gate(shop, "ship")
    with shop.reads() as reads:
        assert len([each for each in reads.registers().shipments.values() if each.frame == "SW-1"]) == 2


def test_a_frame_under_legal_hold_does_not_go_out(shop: Record):
    """It is inspected and released, and the last gate names the hold until an owner lifts it."""
    for gate in ("final inspection", "release"):
        pass_gate(shop, gate)
        judge_new(shop)
    place = HoldAsked("SW-1", "placed", "a court may ask", (OWNER,))
    number = shop.write(lambda reads: hold(reads, place, now_ms())).result()
    with pytest.raises(GateShut, match=f"under legal hold {number}: a court may ask"):
        pass_gate(shop, "ship")
    lift = HoldAsked("SW-1", "lifted", "counsel agreed", (OWNER,))
    shop.write(lambda reads: hold(reads, lift, now_ms())).result()
    judge_new(shop)
    pass_gate(shop, "ship")
