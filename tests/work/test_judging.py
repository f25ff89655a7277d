"""Judging asks a fixed number of questions, writes only what differs, and heals what a crash left unjudged."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from server.record.book_of_lines import Record, now_ms
from server.record.written import Written
from server.work.judge_new import judge_new
from server.work.judging import judge_everything, judge_frames
from server.work.sent_delivery import from_request
from server.work.take_deliveries import take_deliveries
from server.work.telling import told_line
from server.work.touched import touched_by
from tests.story.log import LINES, Tablet, counted, moment
from tests.work.small_shop import open_shop


@pytest.fixture
def record(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    yield made
    made.close()


def send(record: Record, *deliveries: dict[str, Any]) -> None:
    take_deliveries(record, [from_request(each, "sent", now_ms()) for each in deliveries]).result()


def a_pass(tablet: Tablet, clock: str, frame: str = "SW-1", oxygen: str = "8") -> dict[str, Any]:
    told = {"frame": frame, "joint": "A", "run": "root", "setup": "one", "machine": "PW", "sleeve": "none"}
    return tablet.tell(clock, "pass", values=counted("40", "10", "80", oxygen), **told, **LINES)


def words(record: Record, question: str) -> dict[str, str]:
    with record.reads() as reads:
        found = [each.verdict for each in reads.findings() if each.verdict.question == question]
    return {verdict.subject: verdict.word.value for verdict in found}


def more_frames(record: Record, count: int) -> list[str]:
    names = [f"SW-{number}" for number in range(100, 100 + count)]
    packet = {"kind": "packet", "design": "DUNE", "size": "M", "bench": "N", "issued": moment("0:00")}
    lines = [told_line(packet | {"id": name, "frame": name}, now_ms()) for name in names]
    record.write(lambda _: Written(answer=lambda _: None, lines=lines)).result()
    return names


@pytest.mark.parametrize("passes", [1, 40])
def test_the_number_of_questions_does_not_grow(record: Record, passes: int):
    """Judging twenty frames takes as many statements as judging one, however many entries they have."""
    tablet = Tablet("SLATE")
    names = more_frames(record, 20)
    send(record, *(a_pass(tablet, "1:00", frame) for frame in names for _ in range(passes)))
    judge_frames(record, names)

    with record.counting() as for_one:
        judge_frames(record, names[:1])
    with record.counting() as for_twenty:
        judge_frames(record, names)

    assert len(for_twenty) == len(for_one)
    assert len(for_one) < 30


def test_judging_again_writes_nothing_new(record: Record):
    """Judging the same facts again leaves the findings and their history as they were."""
    send(record, a_pass(Tablet("SLATE"), "1:00", oxygen="34"))
    judge_everything(record)
    with record.reads() as reads:
        before = reads.finding_history("SW-1/A#1|purge-o2")

    judge_everything(record)

    with record.reads() as reads:
        assert reads.finding_history("SW-1/A#1|purge-o2") == before
    assert len(before) == 1


def test_what_a_crash_left_is_judged_next_time(record: Record):
    """An entry taken but not judged before the service died is judged by the next run."""
    tablet = Tablet("SLATE")
    judge_new(record)
    send(record, a_pass(tablet, "1:00", oxygen="34"))
    assert words(record, "purge-o2") == {}

    assert judge_new(record) == 1

    assert words(record, "purge-o2") == {"SW-1/A#1": "outside"}
    assert judge_new(record) == 0


def test_a_withdrawn_entry_takes_its_finding_with_it(record: Record):
    """A pass logged on the wrong frame and withdrawn by a second entry is no finding any more; both stay readable."""
    tablet = Tablet("SLATE")
    send(record, a_pass(tablet, "1:00", oxygen="34"))
    judge_new(record)
    send(record, tablet.tell("1:05", "correction", of="SLATE:b1:1", withdraw=True, reason="wrong frame"))
    while judge_new(record):
        pass

    assert words(record, "purge-o2") == {}
    with record.reads() as reads:
        assert [gone for _, gone in reads.finding_history("SW-1/A#1|purge-o2")] == [False, True]
        assert reads.line("SLATE:b1:1") is not None


def test_the_order_of_arrival_changes_no_verdict(tmp_path: Path):
    """The same deliveries taken in the opposite order lead to the same findings."""
    found = []
    for name in ("forward", "backward"):
        folder = tmp_path / name
        folder.mkdir()
        made = open_shop(folder)
        tablet = Tablet("SLATE")
        told = [a_pass(tablet, "1:00", oxygen="34"), tablet.on_joint("1:20", "look", "A", side="inside", grade=4),
                tablet.on_joint("1:30", "tack", "B", setup="two", **LINES)]  # fmt: skip
        for delivery in told if name == "forward" else reversed(told):
            send(made, delivery)
            while judge_new(made):
                pass
        with made.reads() as reads:
            found.append({(each.key, each.verdict.word.value) for each in reads.findings()})
        made.close()

    assert found[0] == found[1]
    assert len(found[0]) > 3


def test_a_late_pass_touches_who_was_first_on_the_line_that_day(record: Record):
    """A pass that arrives late lets the other frames welded on its gas line that day be judged again, and no others."""
    tablet = Tablet("SLATE")
    more_frames(record, 2)
    send(record, a_pass(tablet, "2:00", "SW-100"), *(a_pass(tablet, "2:30", "SW-101") for _ in range(1)))
    other = Tablet("PAD")
    send(record, a_pass(other, "1:00"))
    with record.reads() as reads:
        last = reads.last_position()
        assert touched_by(reads, reads.lines_between(last, last)).frames == {"SW-1", "SW-100", "SW-101"}

    send(record, other.tell("3:00", "look", frame="SW-1", joint="A", side="outside", grade=0))
    with record.reads() as reads:
        last = reads.last_position()
        assert touched_by(reads, reads.lines_between(last, last)).frames == {"SW-1"}
