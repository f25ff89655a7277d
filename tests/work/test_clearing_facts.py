"""What was seen inside and what another instrument read let joints out of a suspect set, by name, and no others."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from server.record.book_of_lines import Record, now_ms
from server.work.judge_new import judge_new
from server.work.narrow import NarrowingAsked, narrow
from server.work.suspect_sets import Offer, OneSet, one_suspect_set, suspect_sets
from tests.story.log import Tablet, moment, value
from tests.work.small_shop import LEAD, a_pass, open_shop, send, tell

A, B = "SW-1/A#1", "SW-1/B#1"


@pytest.fixture
def record(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    yield made
    made.close()


def set_of(record: Record) -> OneSet:
    with record.reads() as reads:
        (found,) = suspect_sets(reads)
        return one_suspect_set(reads, found.check)


def offer(record: Record, by: str) -> Offer | None:
    return next((each for each in set_of(record).offers if each.by == by), None)


def a_failed_bead(record: Record, *looks: dict[str, Any]) -> None:
    """Two joints welded on a purge line whose bead then failed, with some looks at their insides."""
    slate = Tablet("SLATE")
    send(record, slate.tell("0:10", "bead", line="N-P", result="good"))
    send(record, a_pass(slate, "1:00"), a_pass(slate, "2:00", "B"))
    send(record, *(slate.on_joint("3:00", "look", **each) for each in looks))
    send(record, slate.tell("4:00", "bead", line="N-P", result="failed"))


def look(joint: str, grade: int | None, **more: Any) -> dict[str, Any]:
    return {"joint": joint, "side": "inside", "grade": grade} | more


@pytest.mark.parametrize(
    ("looks", "lets_out"),
    [
        ((look("A", 0),), (A,)),
        ((look("A", 0), look("B", 0)), (A, B)),
        ((look("A", 1),), ()),
        ((look("A", 0), look("A", 4)), ()),
        ((look("A", 0, quarters=["q12", "q3"]),), ()),
        ((look("A", 0, quarters=["q12", "q3"]), look("A", 0, quarters=["q6", "q9"])), (A,)),
        ((look("A", 0, moment="after finishing"),), ()),
        ((look("A", 0, side="outside"),), ()),
        ((look("A", None, answer="no access", reason="closed"),), ()),
    ],
)
def test_seen_silver_inside(record: Record, looks: tuple[dict[str, Any], ...], lets_out: tuple[str, ...]):
    """Silver all round, as welded and nowhere darker speaks for a joint; anything less does not."""
    a_failed_bead(record, *looks)
    found = offer(record, "inside colour")
    assert (found.lets_out if found else ()) == lets_out


def test_signed_it_lets_out_what_was_seen_and_nothing_that_comes_later(record: Record):
    """The joint seen silver falls out with all its looks named; one whose pass arrives late stays in."""
    a_failed_bead(record, look("A", 0))
    found = set_of(record)
    seen = offer(record, "inside colour")
    assert seen is not None
    assert seen.leaves == 1
    asked = NarrowingAsked(found.set.check, "inside colour", seen.fact, "silver all round", (LEAD,))
    number = record.write(lambda reads: narrow(reads, asked, found, now_ms())).result()
    with record.reads() as reads:
        told = reads.registers().narrowings[number]
    assert (told.lets_out, told.rests_on) == ((A,), seen.rests_on)
    send(record, a_pass(Tablet("SPARE"), "2:30", "C"))
    judge_new(record)
    assert [each.subject for each in set_of(record).set.still_in] == [B, "SW-1/C#1"]
    assert offer(record, "inside colour") is None


def a_wrong_meter(record: Record, **reading: Any) -> None:
    """A joint welded by a meter whose calibration then failed, with another meter's reading on its set-up."""
    tell(record, kind="instrument", id="OX-2", title="spare meter", months=12, reads=[
        {"quantity": "oxygen", "fixed": "1", "share": "0.05", "unit": "ppm"}])  # fmt: skip
    tell(record, kind="acceptance", id="reading_age", name="reading_age", value="15", unit="min",
         source="shop rule", valid_from="2020-01-01")  # fmt: skip
    slate = Tablet("SLATE")
    usual = {"clock": "0:55", "ppm": "9", "by": "OX-2", "setup": "one"} | reading
    oxygen = {"oxygen": value(usual["ppm"], "ppm", "read", usual["by"])}
    told = slate.tell(usual["clock"], "reading", frame="SW-1", setup=usual["setup"], line="N-P", values=oxygen)
    send(record, told, a_pass(slate, "1:00"))
    tell(record, kind="calibration", id="bad", instrument="OX", at=moment("5:00"), result="fail")
    judge_new(record)


@pytest.mark.parametrize(
    ("reading", "lets_out"),
    [
        ({}, (A,)),
        ({"by": "OX"}, ()),
        ({"ppm": "19.9"}, ()),
        ({"ppm": "30"}, ()),
        ({"setup": "two"}, ()),
        ({"clock": "0:30"}, ()),
        ({"clock": "1:05"}, ()),
    ],
)
def test_another_instrument_read_the_same_purge(record: Record, reading: dict[str, str], lets_out: tuple[str, ...]):
    """On the same set-up, in time before the arc, inside the limit by more than its own doubt: only that speaks."""
    a_wrong_meter(record, **reading)
    found = offer(record, "sister instrument")
    assert (found.lets_out if found else ()) == lets_out
