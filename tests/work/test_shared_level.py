"""What frames share is judged by what changed, and stands as if all of it had been judged again."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from server.facts.moment import show_moment
from server.record.book_of_lines import Record, now_ms
from server.work import shared_level
from server.work.judge_new import judge_new
from server.work.judging import judge_shared, judge_shared_since
from server.work.sent_delivery import from_request
from server.work.shared_level import SharedLevel
from server.work.take_deliveries import take_deliveries
from tests.story.log import LINES, Tablet, counted
from tests.work.small_shop import open_shop, tell


@pytest.fixture
def record(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    yield made
    made.close()


def day(tablet: Tablet) -> list[dict[str, Any]]:
    """Tell some hours: gas, a bead that fails and passes after it, arcs at one time, a sleeve left open."""
    on = {"frame": "SW-1", "joint": "A", "run": "root", "setup": "one", "machine": "PW", "sleeve": "S1"}
    arcs = counted("40", "10", "80", "8")
    return [
        tablet.tell("0:10", "cylinder", line="N-P", on="CY-1"),
        tablet.tell("0:20", "sleeve", sleeve="S1", act="opened", rod_ends="ERTi-2"),
        tablet.tell("0:30", "bead", line="N-T", result="good"),
        tablet.tell("1:00", "pass", values=arcs, **on, **LINES),
        tablet.tell("1:30", "bead", line="N-T", result="failed"),
        tablet.tell("1:40", "pass", values=arcs, **on, **LINES),
        tablet.tell("1:40", "pass", values=arcs, **on | {"joint": "B"}, **LINES),
        tablet.tell("1:50", "check", check="air", subject="OX", result="good"),
        tablet.tell("1:20", "cylinder", line="N-P", on="CY-2"),
        tablet.tell("1:55", "coupon", welder="WEL", procedures=["TT"], result="failed"),
        tablet.tell("2:00", "bead", line="N-T", result="good"),
        tablet.tell("2:10", "sleeve", sleeve="S1", act="closed"),
    ]


def allow_it(record: Record) -> None:
    """Sign a concession and a decision that uses it on the joints at which two arcs will burn at one time."""
    signed = {"role": "quality lead", "at": show_moment(now_ms()), "meaning": "agreed", "shown_sha256": "0"}
    both = [signed | {"person": "LEA"}, signed | {"person": "OWN", "role": "owner"}]
    on = ["SW-1/A#1|purge-o2", "SW-1/B#1|purge-o2"]
    tell(record, kind="concession", id="CO-1", frames=["SW-1"], count=1, reason="small", signatures=both)
    tell(record, kind="decision", id="DE-1", choice="use as is", findings=on, reason="small", concession="CO-1",
         signatures=both)  # fmt: skip


def rows_all_again_writes(record: Record) -> int:
    """Judge all that frames share and give how many rows that appends."""

    def rows() -> int:
        with record.reads() as reads:
            return sum(len(found) for found in shared_rows(reads))

    before = rows()
    judge_shared(record)
    return rows() - before


def shared_rows(reads: Any) -> tuple[list[Any], list[Any]]:
    ask = reads._connection.exec_driver_sql
    return ask("SELECT number FROM verdict").all(), ask("SELECT number FROM finding").all()


def judged_by_changes(record: Record) -> tuple[list[int], int]:
    """Judge after each line; give what all again would have written, and how often it was judged by changes."""
    level, by_changes, written = SharedLevel(), 0, []

    def counting(*asked: Any, **further: Any) -> Any:
        nonlocal by_changes
        judged = judge_shared_since(*asked, **further)
        by_changes += judged is not None
        return judged

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr("server.work.judge_new.judge_shared_since", counting)
        allow_it(record)
        for delivery in day(Tablet("SLATE")):
            take_deliveries(record, [from_request(delivery, "sent", now_ms())]).result()
            while judge_new(record, level=level):
                pass
            written.append(rows_all_again_writes(record))
    return written, by_changes


def test_nothing_is_left_to_judge(record: Record):
    """After each line of a day all that frames share, judged whole, says nothing new; it was judged by changes."""
    written, by_changes = judged_by_changes(record)
    assert written == [0] * len(written)
    assert by_changes >= len(written) - 3


def test_who_forgets_who_else_speaks_of_a_joint_is_found_out(record: Record, monkeypatch: pytest.MonkeyPatch):
    """Control: two arcs at one time are told of a joint by its welder; what its concession says of it must not go."""
    monkeypatch.setattr(shared_level, "_of_joints", lambda *_: {})
    assert sum(judged_by_changes(record)[0]) > 0


def test_who_misses_a_change_is_found_out(record: Record, monkeypatch: pytest.MonkeyPatch):
    """Control: where nothing is said to have changed, judging all of it finds what was left."""
    monkeypatch.setattr(shared_level, "changed_things", lambda *_: set())
    assert sum(judged_by_changes(record)[0]) > 0
