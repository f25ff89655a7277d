"""A suspect set is narrowed by a fact on record, by somebody who welded none of it; only another undoes it."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from server.record.book_of_lines import Record, now_ms
from server.work.judge_new import judge_new
from server.work.narrow import NarrowingAsked, NarrowingRefused, narrow
from server.work.nonconform import NonconformityRefused, NonconformityTold, nonconform
from server.work.signature import Signing
from server.work.suspect_sets import OneSet, one_suspect_set, suspect_sets
from tests.story.log import Tablet
from tests.work.small_shop import LEAD, a_pass, open_shop, send

FAILED = "SLATE:b1:5"
CHANGE = "SLATE:b1:3"
WELDER = Signing("WEL", "", "SLATE", "welder", "narrowed")


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    slate = Tablet("SLATE")
    send(
        made,
        slate.tell("0:10", "bead", line="N-P", result="good"),
        a_pass(slate, "1:00"),
        slate.tell("2:00", "cylinder", line="N-P", on="C-2", off="C-1"),
        a_pass(slate, "3:00", "B"),
        slate.tell("4:00", "bead", line="N-P", result="failed"),
    )
    yield made
    made.close()


def the_set(record: Record) -> OneSet:
    with record.reads() as reads:
        assert [each.check for each in suspect_sets(reads)] == [FAILED]
        return one_suspect_set(reads, FAILED)


def still_in(record: Record) -> list[str]:
    return [each.subject for each in the_set(record).set.still_in]


def sign(record: Record, **told: Any) -> str:
    usual = {"check": FAILED, "by": "cylinder connected", "fact": CHANGE, "reason": "only the cylinder changed"}
    asked = NarrowingAsked(**usual | {"signings": (LEAD,)} | told)
    found = the_set(record)
    return record.write(lambda reads: narrow(reads, asked, found, now_ms())).result()


def test_a_cylinder_change_is_on_offer_and_says_what_it_leaves(shop: Record):
    """The failed bead opens a set of both joints; the change in between would leave the one welded after it."""
    assert still_in(shop) == ["SW-1/A#1", "SW-1/B#1"]
    assert [(each.by, each.fact, each.leaves) for each in the_set(shop).offers] == [("cylinder connected", CHANGE, 1)]


def test_signed_it_lets_out_and_undone_it_takes_back(shop: Record):
    """The signature lets the earlier joint out with its reason; another paper brings it back, and only once."""
    number = sign(shop)
    judge_new(shop)
    assert still_in(shop) == ["SW-1/B#1"]
    assert the_set(shop).set.suspects[0].cleared_reason == "only the cylinder changed"
    sign(shop, undoes=number, reason="the label was misread")
    assert still_in(shop) == ["SW-1/A#1", "SW-1/B#1"]
    with pytest.raises(NarrowingRefused, match="is undone already"):
        sign(shop, undoes=number)


def test_the_same_narrowing_sent_twice_is_one(shop: Record):
    """The second is answered by the first's number, and so is a second undoing."""
    number = sign(shop)
    assert sign(shop) == number
    judge_new(shop)
    assert sign(shop) == number
    undone = sign(shop, undoes=number, reason="the label was misread")
    assert sign(shop, undoes=number, reason="the label was misread") == undone
    with shop.reads() as reads:
        assert len(reads.registers().narrowings) == 2


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"fact": "SLATE:b1:1"}, "no cylinder connected inside the stretch"),
        ({"by": "none"}, "'none' is none of"),
        ({"by": "inside colour", "fact": "nothing", "keeps": ("SW-1/B#1",)}, "never narrowed by a wish"),
        ({"by": "inside colour", "keeps": ("SW-9/B#1",)}, "SW-9/B#1 is not in this set"),
        ({"reason": ""}, "reason: empty"),
        ({"signings": (WELDER,)}, "WEL welded joints of this set"),
        ({"signings": (WELDER,)}, "by a quality lead or an owner"),
        ({"undoes": "N-0"}, "no narrowing of this set"),
    ],
)
def test_a_wish_is_refused(shop: Record, wrong: dict[str, Any], said: str):
    """Without a fact of its kind, a reason and the right signer, the set stays as it is."""
    with pytest.raises(NarrowingRefused, match=said):
        sign(shop, **wrong)


def tell(record: Record, **told: Any) -> str:
    asked = NonconformityTold(**{"title": "grey bead", "signings": (LEAD,)} | told)
    return record.write(lambda reads: nonconform(reads, asked, now_ms())).result()


def test_a_nonconformity_is_told_anew_and_closed(shop: Record):
    """Opened, told anew over what its teller has read, closed with cause and action; every telling is kept."""
    number = tell(shop, held=("SW-1/B#1",))
    with shop.reads() as reads:
        seen = reads.registers().positions[f"nonconformity:{number}"]
    steps = {"containment": "cylinder off", "cause": "wet gas", "action": "bead at every change"}
    tell(shop, number=number, seen_position=seen, close=True, **steps)
    with shop.reads() as reads:
        assert reads.registers().nonconformities[number].closed is not None
        assert len(reads.sendings_of(number)) == 2
    with pytest.raises(NonconformityRefused, match="told anew while you wrote"):
        tell(shop, number=number, seen_position=seen)


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"title": ""}, "title: empty"),
        ({"title": " t"}, "title: 't' is too short"),
        ({"held": ("SW-9/B#1",)}, "no joint of a known frame"),
        ({"close": True, "containment": "off", "cause": "wet gas"}, "action: empty"),
        ({"number": "NC-0"}, "no nonconformity the record knows"),
        ({"signings": (WELDER,)}, "quality lead or an owner"),
    ],
)
def test_half_a_nonconformity_is_refused(shop: Record, wrong: dict[str, Any], said: str):
    """Title, known joints, the steps before closing, and the right signer are asked for by name."""
    with pytest.raises(NonconformityRefused, match=said):
        tell(shop, **wrong)
