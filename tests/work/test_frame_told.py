"""What is told of a frame that used a thing is what its joints say one by one, whatever was told in between."""

from collections.abc import Callable

import pytest

from server.record.book_of_lines import Record, now_ms
from server.work import frame_told as frame_told_module
from server.work.frame_places import PLACES
from server.work.frame_told import FrameTold
from server.work.remove_details import RemovalAsked, remove_details
from server.work.what_else import WhatElse, what_else
from server.work.what_things import Thing
from tests.story.log import LINES, Tablet
from tests.work.small_shop import OWNER, a_pass, send, tell


def found(shop: Record) -> WhatElse:
    with shop.reads() as reads:
        return what_else(reads, [Thing("line", LINES["purge_line"])])


def by_rows(it: WhatElse) -> list[FrameTold]:
    return [it.told_of(row) for place in PLACES for row in it.frames_at(place)]


def by_joints(it: WhatElse) -> list[FrameTold]:
    """The same, worked out from every joint."""
    told = []
    for place in PLACES:
        for row in it.frames_at(place):
            own = [each for each in it.shared if (each.frame, each.place) == (row.frame, place)]
            joints = tuple(each.subject.partition("/")[2] for each in own)
            told.append(FrameTold(row.frame, joints, own[0].at_ms[0], own[0].customer, own[0].shipped_ms))
    return told


def take_back(shop: Record, entry: str) -> None:
    send(shop, Tablet("SLATE", "b7").tell("5:10", "correction", of=entry, withdraw=True, reason="slip"))


STAGES: tuple[Callable[[Record], object], ...] = (
    lambda shop: send(shop, a_pass(Tablet("SLATE", "b5"), "5:00", "B", run="repair", attempt=2)),
    lambda shop: take_back(shop, found(shop).sought.uses[-1].entry),
    lambda shop: send(shop, a_pass(Tablet("SLATE", "b8"), "5:00", "C", run="repair", attempt=2)),
    lambda shop: tell(shop, kind="shipment", id="S-1", frame="SW-1", customer="CU-1", at="2030-05-01T08:00:00.000Z"),
    lambda shop: tell(shop, kind="ownership", id="O-1", frame="SW-1", customer="CU-2", since="2030-05-02"),
    lambda shop: send(shop, Tablet("SLATE", "b6").tell("6:00", "stage", frame="SW-1", stage="returned")),
    lambda shop: tell(shop, kind="shipment", id="S-2", frame="SW-1", customer="CU-1", at="2030-05-05T08:00:00.000Z"),
)


def test_rows_tell_what_joints_say(shop: Record):
    """A repair, taken back and made elsewhere, a shipment, another owner, a return and another shipment are told so."""
    told = [by_rows(found(shop))]
    for stage in STAGES:
        stage(shop)
        told.append(by_rows(it := found(shop)))
        assert told[-1] == by_joints(it)
    assert [[joint for each in rows for joint in each.joints if "#2" in joint] for rows in told[:4]] == [
        [], ["B#2"], [], ["C#2"],
    ]  # fmt: skip
    assert len({each.customer for rows in told for each in rows}) == 3
    assert len({each.shipped_ms for rows in told for each in rows}) == 3


def test_a_name_that_was_removed_is_told_no_more(shop: Record):
    """Once an owner removed a customer's details, a row that named them tells the number that is left."""
    tell(shop, kind="shipment", id="S-1", frame="SW-1", customer="CU-1", at="2030-05-01T08:00:00.000Z")
    named = {each.customer for each in by_rows(found(shop))}
    remove_details(shop, RemovalAsked("CU-1", "they asked for it by letter", (OWNER,)), now_ms())
    it = found(shop)
    assert by_rows(it) == by_joints(it)
    assert named.isdisjoint({each.customer for each in by_rows(it)})
    kept = it.sought.tables.made_of._made["frames told"][1].values()
    assert named.isdisjoint({each.told.customer for each in kept})


def test_what_was_told_is_kept_and_goes_when_there_is_too_much(shop: Record, monkeypatch: pytest.MonkeyPatch):
    """Asked again, the very same is given; with no room for another row all are forgotten and told anew."""
    it = found(shop)
    first = by_rows(it)
    assert all(one is other for one, other in zip(first, by_rows(it), strict=True))
    monkeypatch.setattr(frame_told_module, "_KEPT", 1)
    with shop.reads() as reads:
        other = what_else(reads, [Thing("sleeve", "S-1")])
    assert by_rows(other) == by_joints(other)
    again = by_rows(it)
    assert (again == first, again[0] is first[0]) == (True, False)
