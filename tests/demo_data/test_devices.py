"""Tablets of the demo: their clocks, counters and numbers, and what waits without network."""

import json
from datetime import date

from demo_data.generator.devices import IMPORT, Boot, Devices, Outage, Sent, named
from demo_data.generator.story import Happening, KeyOf
from server.facts.moment import parse_moment
from tests.demo_data.told import Told, moment

DAY = "2025-03-18"


def tapped(clock: str, device: str = "T", **fields: object) -> Happening:
    return Happening(moment(DAY, clock), device, "W", {"kind": "problem", "words": "w", **fields}, moment(DAY, clock))


def entries(sent: list[Sent]) -> list[dict[str, object]]:
    return [json.loads(sending.line) for sending in sent]


def test_numbers_run_on_and_counters_begin_at_a_start() -> None:
    """The device's number counts its entries in the order they were tapped; its counter began when it was started."""
    devices = Devices(1, {"T": [Boot(moment(DAY, "09:00"), "b1", 250)]})
    first, second = entries(devices.send([tapped("10:00"), tapped("09:30")]))
    assert (first["id"], first["seq"], first["mono_ms"]) == ("T:b1:1", 1, 30 * 60_000)
    assert (second["id"], second["mono_ms"]) == ("T:b1:2", 60 * 60_000)
    assert str(first["happened"]).endswith("T08:30:00.250Z")


def test_a_mended_clock_is_right_from_then_on() -> None:
    """Before it is mended the clock is off, afterwards not, within the same start."""
    slow = Boot(moment(DAY, "07:00"), "b1", -60_000, moment(DAY, "12:00"))
    before, after = Devices(1, {"T": [slow]}).send([tapped("11:00"), tapped("13:00")])
    assert (before.sent or 0) - before.received < -58_000
    assert abs((after.sent or 0) - after.received) < 5_000
    assert {entry["boot"] for entry in entries([before, after])} == {"b1"}


def test_what_waits_is_sent_when_the_network_is_back() -> None:
    """Without network entries wait; a try without receipts sends the first of them, and all go again at the end."""
    start, end = moment(DAY, "10:00"), moment(DAY, "11:00")
    outage = Outage("T", start, end, ((moment(DAY, "10:50"), 2),))
    sent = Devices(1, outages=[outage]).send([tapped(f"10:{minute}") for minute in (10, 20, 30)])
    assert [sending.received >= end for sending in sent] == [False, False, True, True, True]
    assert len({sending.id for sending in sent}) == 5
    assert [entry["seq"] for entry in entries(sent)] == [1, 2, 1, 2, 3]


def test_paper_has_neither_start_nor_counter() -> None:
    """What is entered from paper bears no start, no counter and no moment of sending."""
    (sent,) = Devices(1).send([tapped("10:00", IMPORT)])
    assert sent.sent is None
    assert not {"boot", "mono_ms"} & entries([sent])[0].keys()


def test_an_entry_can_name_another() -> None:
    """Where one entry names another it is by the id that one was given, whichever tablet it is on."""
    test = tapped("10:00", "Z")
    result = tapped("10:05", "A", of=test)
    sent = {entry["device"]: entry for entry in entries(Devices(1).send([result, test]))}
    assert sent["A"]["of"] == sent["Z"]["id"] == test.id


def test_a_key_is_made_of_what_the_device_showed(full: Told) -> None:
    """A decision on a check names it by the moment its tablet showed, in whole seconds."""
    paper = next(p for p in full.story.papers if p.line["id"] == "D-NCR-25-019-1")
    (key, *_) = [each for each in paper.line["findings"] if isinstance(each, KeyOf)]
    check = json.loads(next(s.line for s in full.sent if f'"id":"{key.happening.id}"'.encode() in s.line))
    assert named(key) == f"PA-2@{check['happened'][:19]}Z|cross-check"


def test_walls_swallow_the_network_now_and_then(full: Told) -> None:
    """Some mornings a booth's tablet sends late; never on a day an incident is told of."""
    late = [s for s in full.sent if s.device in ("TAB-A", "TAB-B") and s.received - _tapped(s) > 10 * 60_000]
    assert len(late) > 300
    assert not [s for s in late if date(2025, 3, 14) <= _day(s) <= date(2025, 3, 20) and s.device == "TAB-A"]


def _tapped(sent: Sent) -> int:
    return parse_moment(json.loads(sent.line)["device_time"])


def _day(sent: Sent) -> date:
    return date.fromisoformat(json.loads(sent.line)["device_time"][:10])
