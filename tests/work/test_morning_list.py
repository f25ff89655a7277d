"""The morning list puts every finding where its reader looks for it, once, with since when it has waited."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.record.book_of_lines import Record, now_ms
from server.record.written import Written
from server.work.morning_list import MorningList, morning_list, open_on_shipped
from server.work.telling import told_line
from tests.story.log import Tablet, moment
from tests.work.small_shop import a_pass, open_shop, send, sign, weld_it_all

TOO_MUCH = "SW-1/A#1|purge-o2"


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    yield made
    made.close()


def the_list(record: Record) -> MorningList:
    with record.reads() as reads:
        return morning_list(reads)


def questions(groups: tuple[object, ...]) -> set[str]:
    return {group.question for group in groups}  # type: ignore[attr-defined]


def test_a_finding_waits_with_its_frame_and_since_when(shop: Record):
    """Air in the purge stands among what waits, and the list says when the record came to know it."""
    before = now_ms()
    send(shop, a_pass(Tablet("SLATE"), "1:00", oxygen="300"))
    found = the_list(shop)
    assert "purge-o2" in questions(found.stops) | questions(found.outside)
    assert before <= found.since_ms[TOO_MUCH] <= now_ms()
    assert found.frames_waiting == 1


def test_a_tablet_with_the_frame_open_is_named_until_it_tells_that_it_closed_it(shop: Record):
    """A tablet that opened a frame stands on the list; when it says that it closed it, it is gone."""
    slate = Tablet("SLATE")
    send(shop, slate.tell("1:00", "opened", frame="SW-1", act="opened"), a_pass(slate, "1:10"))
    assert [(each.frame, each.device) for each in the_list(shop).tablets] == [("SW-1", "SLATE")]
    send(shop, slate.tell("2:00", "opened", frame="SW-1", act="closed"))
    assert the_list(shop).tablets == ()


def test_rework_is_to_be_looked_at_again(shop: Record):
    """What was sent to rework leaves what waits for a decision and stands under what is to be looked at."""
    send(shop, a_pass(Tablet("SLATE"), "1:00", oxygen="300"))
    sign(shop, "rework", [TOO_MUCH])
    found = the_list(shop)
    assert questions(found.to_inspect) == {"purge-o2"}
    assert "purge-o2" not in questions(found.stops) | questions(found.outside)


def test_what_is_open_on_a_shipped_frame_names_who_has_it(shop: Record):
    """Once the frame has left, its open finding stands on the owner's list with the customer and the day."""
    send(shop, a_pass(Tablet("SLATE"), "1:00", oxygen="300"))
    gone = {"kind": "shipment", "id": "SH-1", "frame": "SW-1", "customer": "nobody yet", "at": moment("9:00")}
    shop.write(lambda _: Written(answer=lambda _: None, lines=(told_line(gone, now_ms()),))).result()
    with shop.reads() as reads:
        groups = {group.question: group.gone for group in open_on_shipped(reads).out}
    assert [(each.frame, each.customer) for each in groups["purge-o2"]] == [("SW-1", "nobody yet")]
    inside = the_list(shop)
    assert "purge-o2" not in questions(inside.stops) | questions(inside.outside)


def test_what_is_outside_and_what_is_unknown_stand_apart(shop: Record):
    """Too much oxygen is outside; a purge nobody turned on is unknown; neither stands in the other's place."""
    send(shop, a_pass(Tablet("SLATE"), "1:00", oxygen="300"))
    found = the_list(shop)
    told = questions(found.stops) | questions(found.outside)
    assert "purge-o2" in told
    assert "pre-purge-time" in questions(found.unknown)
    assert questions(found.outside) & questions(found.unknown) == set()


def test_a_failed_check_stands_with_the_checks_and_names_its_set(shop: Record):
    """A failed bead holds no frame by itself: it stands among the checks, what rests on it in its suspect set."""
    slate = Tablet("SLATE")
    send(shop, slate.tell("0:30", "bead", line="N-P", result="good"), a_pass(slate, "1:00"))
    send(shop, slate.tell("2:00", "bead", line="N-P", result="failed"))
    found = the_list(shop)
    assert "purge-bead" in questions(found.checks)
    assert all(matter.finding.frame is None for group in found.checks for matter in group.matters)
    assert [each.frames for each in found.suspected] == [("SW-1",)]


def test_a_hold_point_waits_since_its_last_pass_was_known(shop: Record):
    """A seam that another tube hides, welded all round, waits since the record took its last pass."""
    before = now_ms()
    send(shop, *weld_it_all(Tablet("SLATE")))
    waiting = the_list(shop).hold_points
    assert waiting
    assert all(before <= each.since_ms <= now_ms() for each in waiting)
