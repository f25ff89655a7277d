"""What a bench tablet is given ahead of time."""

import json
import random
from datetime import date

import pytest

from server.facts.deciding import Permission, Signature
from server.facts.equipment import Bench
from server.facts.orders import Packet, Shipment
from server.facts.registers import Registers
from server.record.book_of_lines import Record, now_ms
from server.work import reckoned
from server.work.bench_frames import MOST_FRAMES, frames_in_work
from server.work.bench_sheet import AskedSheet, bench_sheet, day_of, read_ahead
from server.work.refusal import NotThere
from server.work.sent_delivery import from_request
from server.work.take_deliveries import take_deliveries
from tests.pages.bench.bench_shop import FRAME, OPEN_SLEEVES, OTHER_FRAME
from tests.pages.bench.fixtures import bench_record

__all__ = ["bench_record"]


def sheet_of(record: Record, bench: str = "B1") -> dict[str, object]:
    with record.reads() as reads:
        return bench_sheet(reads, AskedSheet(bench, "TAB-A", now_ms()))


def test_a_sheet_holds_what_a_shift_needs(bench_record: Record) -> None:
    """Frames in work, cards, people, lines with their cylinders and open sleeves stand on it, and it is plain JSON."""
    sheet = json.loads(json.dumps(sheet_of(bench_record)))
    assert [frame["frame"] for frame in sheet["frames"]] == [FRAME, OTHER_FRAME]
    assert {(card["procedure"], card["revision"]) for card in sheet["cards"]} >= {("T1", "C"), ("T2", "B"), ("T3", "A")}
    assert [(line["line"], line["cylinder"]) for line in sheet["lines"]] == [("B1-T", "AR-0901"), ("B1-P", "AR-0902")]
    assert tuple(sleeve["sleeve"] for sleeve in sheet["sleeves"]) == OPEN_SLEEVES
    beads = [(each["line"], each["result"]) for each in sheet["entries"] if each["kind"] == "bead"]
    assert sorted(beads) == [("B1-P", "good"), ("B1-T", "good")]
    assert sheet["beads_asked"] == {"torch": True, "purge": True, "shift": True}
    assert "Pell Adair" in [person["name"] for person in sheet["people"]]


def test_an_unknown_bench_is_refused_with_those_there_are(bench_record: Record) -> None:
    """Asking for a bench nobody told of names the benches that are known."""
    with pytest.raises(NotThere, match="there is no bench 'B9'; known are: B1, B2"):
        sheet_of(bench_record, "B9")


def test_another_bench_has_its_own_lines_and_no_frame_of_this_one(bench_record: Record) -> None:
    """The second bench sees its own gas lines; frames issued to the first are not on its sheet."""
    sheet = sheet_of(bench_record, "B2")
    assert [line["line"] for line in sheet["lines"]] == ["B2-T", "B2-P"]  # type: ignore[attr-defined]
    assert sheet["frames"] == []


def test_a_sheet_costs_the_same_however_much_was_logged(bench_record: Record) -> None:
    """After forty more entries on a frame the record is asked as many questions as after one more."""
    sheet_of(bench_record)
    take_deliveries(bench_record, [from_request(_clean(40), "sent", now_ms())]).result()
    with bench_record.counting() as before:
        sheet_of(bench_record)
    take_deliveries(bench_record, [from_request(_clean(n), "sent", now_ms()) for n in range(40)]).result()
    with bench_record.counting() as after:
        sheet = sheet_of(bench_record)
    assert len(after) == len(before)
    assert len(sheet["entries"]) >= 40  # type: ignore[arg-type]


def _clean(number: int) -> dict[str, object]:
    at = "2026-03-18T12:00:00.000Z"
    told = {"kind": "clean", "id": f"TAB-N:b:{number}", "device": "TAB-N", "seq": number, "device_time": at}
    told |= {"happened": at, "who": "W01", "frame": FRAME, "joint": "J01", "method": "wiped"}
    return {"id": f"D{number}-clean", "device": "TAB-N", "sent_at": at, "line": json.dumps(told, sort_keys=True)}


def test_the_day_is_the_shops_own() -> None:
    """Half past ten in the evening in UTC is the next day already where the shop's clock is hours ahead."""
    late = 1_742_337_000_000
    assert day_of(late, "UTC") == date(2025, 3, 18)
    assert day_of(late, "Asia/Kolkata") == date(2025, 3, 19)


def test_frames_that_left_are_not_in_work(bench_record: Record) -> None:
    """Shipped, released, built before the record, of another bench, of an unknown design: none of them is in work."""
    with bench_record.reads() as reads:
        registers = reads.registers()
    told = {name: packet(name) for name in ("here", "shipped", "released", "old", "elsewhere", "undrawn")}
    told["old"] = told["old"].model_copy(update={"before_the_record": True})
    told["elsewhere"] = told["elsewhere"].model_copy(update={"bench": "B2"})
    told["undrawn"] = told["undrawn"].model_copy(update={"design": "NONE"})
    signed = Signature(person="O01", role="owner", at="2026-01-01T00:00:00Z", meaning="seen", shown_sha256="0")  # type: ignore[arg-type]
    registers = Registers(
        designs=registers.designs,
        packets=told,
        shipments={"S": Shipment(id="S", frame="shipped", customer="C", at="2026-01-01T00:00:00Z")},  # type: ignore[arg-type]
        permissions={"P": Permission(id="P", permits="release", frame="released", known_at=1, signatures=(signed,))},
    )
    with bench_record.reads() as reads:
        bench = reads.registers().benches["B1"]
    assert [each.frame for each in frames_in_work(registers, bench)] == ["here"]


def test_of_many_frames_the_newest_here_and_for_any_bench_are_told(bench_record: Record) -> None:
    """Whatever bench each is for and however many were issued in one minute: those a walk through all packets finds."""
    dice, minutes = random.Random(7), [f"2026-01-01T00:{minute:02}:00Z" for minute in range(12)]
    with bench_record.reads() as reads:
        designs = reads.registers().designs
    told = [packet(f"F{n}", dice.choice(("B1", "B2", None)), dice.choice(minutes)) for n in range(60)]
    registers = Registers(designs=designs, packets={each.frame: each for each in told})
    for bench in ("B1", "B2", "B3"):
        asked = Bench(id=bench, title="a booth", torch_line="T", purge_line="P")
        here = sorted((each for each in told if each.bench in (None, bench)), key=lambda each: each.issued)
        assert frames_in_work(registers, asked) == here[-MOST_FRAMES:], bench


def test_what_is_read_ahead_no_sheet_waits_for(bench_record: Record, monkeypatch: pytest.MonkeyPatch) -> None:
    """Reading ahead reckons the picture, the holds and the purges; a sheet asked then reckons nothing it waits for."""
    monkeypatch.setattr(reckoned, "_kept", {})
    with bench_record.reads() as reads:
        read_ahead(reads, now_ms())
    before = waited_for()
    assert {each[0] for each in before} == {"picture", "hold", "purge"}
    sheet_of(bench_record)
    assert waited_for() == before


def waited_for() -> set[tuple[object, ...]]:
    """What was reckoned by now but for pauses, which no sheet waits for."""
    return {each for each in reckoned._kept if isinstance(each, tuple) and each[0] != "pause"}


def packet(frame: str, bench: str | None = "B1", issued: str = "2026-01-01T00:00:00Z") -> Packet:
    return Packet(id=frame, frame=frame, design="LST", size="56", bench=bench, issued=issued)  # type: ignore[arg-type]
