"""What the record says of a frame, or of the joint an entry is about."""

import json
from typing import Any

import pytest

from server.record.book_of_lines import Record, now_ms
from server.work.judge_new import judge_new
from server.work.sent_delivery import from_request
from server.work.take_deliveries import take_deliveries
from tests.pages.bench.bench_shop import FRAME, WELDER
from tests.pages.bench.fixtures import Visit, bench_record, visit

__all__ = ["bench_record", "visit"]
AT = "2026-03-18T12:38:05.000Z"


def taken(record: Record, number: int, **fields: Any) -> str:
    name = f"TAB-V:b:{number}"
    head = {"id": name, "device": "TAB-V", "boot": "b", "seq": number, "mono_ms": number, "device_time": AT}
    line = json.dumps(head | {"happened": AT, "who": WELDER} | fields, sort_keys=True)
    sent = {"id": f"D-{name}", "device": "TAB-V", "sent_at": AT, "line": line}
    take_deliveries(record, [from_request(sent, "sent", now_ms())]).result()
    return name


@pytest.fixture
def judged(bench_record: Record, visit: Visit) -> Visit:
    """Signed in, with one pass of too much oxygen in the record, judged."""
    oxygen = {"value": "80", "unit": "ppm", "how": "read", "by": "PA-1"}
    taken(
        bench_record, 1, kind="pass", frame=FRAME, joint="J01", run="root", torch_line="B1-T", values={"oxygen": oxygen}
    )
    judge_new(bench_record)
    visit.sign_in(WELDER)
    return visit


def test_the_joint_of_an_entry_is_told_with_value_limit_and_source(judged: Visit) -> None:
    """Oxygen far over its limit is outside and proved, with the numbers it met and where they come from."""
    told = judged.ask("GET", "/api/verdicts?entry=TAB-V:b:1").json()
    oxygen = next(each for each in told["verdicts"] if each["value"] == 80.0)
    assert told["judged"] is True
    assert (oxygen["word"], oxygen["proved"], oxygen["high"], oxygen["unit"]) == ("outside", True, 20.0, "ppm")
    assert oxygen["source"]
    assert oxygen["subject"] == f"{FRAME}/J01#1"


def test_a_frame_is_told_whole(judged: Visit) -> None:
    """By frame every joint's verdicts come, the one of the entry among them."""
    told = judged.ask("GET", f"/api/verdicts?frame={FRAME}").json()
    assert f"{FRAME}/J01#1" in {each["subject"] for each in told["verdicts"]}


def test_an_entry_not_judged_yet_says_so(judged: Visit, bench_record: Record) -> None:
    """Between taking and judging the answer is that the record has it and has not judged it."""
    name = taken(bench_record, 2, kind="clean", frame=FRAME, joint="J02", method="wiped")
    assert judged.ask("GET", f"/api/verdicts?entry={name}").json()["judged"] is False


def test_an_entry_about_no_joint_has_no_verdicts(judged: Visit, bench_record: Record) -> None:
    """A bead is known to the record and belongs to no joint."""
    name = taken(bench_record, 3, kind="bead", line="B1-T", result="good")
    assert judged.ask("GET", f"/api/verdicts?entry={name}").json()["verdicts"] == []


@pytest.mark.parametrize(
    ("asked", "status"), [("entry=nobody", 404), ("entry=a%00b", 404), ("", 422), ("frame=A&entry=B", 422)]
)
def test_what_cannot_be_answered_is_a_problem(judged: Visit, asked: str, status: int) -> None:
    """An unknown entry is not there; naming neither or both says which to name."""
    answer = judged.ask("GET", f"/api/verdicts?{asked}")
    assert (answer.status_code, answer.headers["content-type"]) == (status, "application/problem+json")


def test_verdicts_are_given_to_nobody_unknown(visit: Visit) -> None:
    """Without a session there is no answer."""
    assert visit.ask("GET", f"/api/verdicts?frame={FRAME}").status_code == 401
