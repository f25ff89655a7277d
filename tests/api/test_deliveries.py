"""What comes in over HTTP: a receipt for everything with an id, whatever it holds, never a failure of the service."""

import json
from typing import Any

import pytest

from server.api.body_limit import MOST_BYTES
from server.record.book_of_lines import Record
from server.record.troubles import NoRoom, RecordBusy, RecordClosed
from tests.api.asking import Asker, delivery
from tests.record.sample_lines import FRAME

MINUS_FORTY = {"peak_current": {"value": "-40", "unit": "A", "how": "set"}}


def receipts(answer: Any) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = answer.json()["receipts"]
    return found


def test_an_entry_gets_its_receipt(asker: Asker, record: Record):
    """A delivery is answered with its place and its leaf, and is then in the record byte for byte."""
    sent = delivery(1)
    answer = asker.send(sent)
    assert answer.status_code == 200
    (receipt,) = receipts(answer)
    assert (receipt["delivery"], receipt["entry"]) == (sent["id"], sent["id"])
    assert (receipt["taken"], receipt["position"]) == ("taken", 1)
    with record.reads() as reads:
        line = reads.line(sent["id"])
    assert line is not None
    assert (line.body, line.leaf.hex()) == (sent["line"].encode(), receipt["leaf"])


def test_the_same_again_gets_the_same_receipt(asker: Asker, record: Record):
    """Sent again with the same bytes, the entry has the same place, leaf and time, and is there once."""
    (first,) = receipts(asker.send(delivery(1)))
    answer = asker.send(delivery(1))
    assert answer.status_code == 200
    assert receipts(answer) == [first | {"taken": "taken before"}]
    with record.reads() as reads:
        assert len(reads.frame_entries(FRAME)) == 1


def test_other_bytes_under_the_same_id_are_refused_and_kept(asker: Asker, record: Record):
    """A copy with other bytes gets 409 and a receipt of its own; the first stands, the copy's bytes are kept."""
    asker.send(delivery(1))
    changed = delivery(1, joint="J2")
    answer = asker.send(changed)
    assert answer.status_code == 409
    assert answer.headers["content-type"] == "application/problem+json"
    (receipt,) = receipts(answer)
    assert (receipt["taken"], receipt["position"]) == ("refused copy", 2)
    assert "correction" in receipt["problem"]
    with record.reads() as reads:
        (entry,) = reads.frame_entries(FRAME)
        kept = reads.sendings_of(changed["id"])[1]
    assert entry.entry.kind == "pass"
    assert entry.entry.joint == "J1"
    assert kept.body == changed["line"].encode()


def test_negative_amps_are_taken_but_not_understood(asker: Asker):
    """An impossible number is kept as it was sent; its receipt names field, value and what is possible."""
    answer = asker.send(delivery(1, values=MINUS_FORTY))
    assert answer.status_code == 200
    (receipt,) = receipts(answer)
    assert receipt["taken"] == "taken, not understood"
    assert "values.peak_current is -40 A; possible is 0 to 1000 A" in receipt["problem"]


@pytest.mark.parametrize(
    ("change", "problem"),
    [
        ({"line": "no JSON"}, "line"),
        ({"line": ""}, "line"),
        ({"line": '{"kind":"dance","id":"TAB-1:b1:1"}'}, "kind: found"),
        ({"line": '{"kind":"pass"}'}, "id: found missing"),
        ({"line": '{"kind":"pass","volts":11.5}'}, "volts: found 11.5; expected a measured value as text"),
        ({"line": "[" * 5000}, "nested too deep"),
        ({"line": "\ud800"}, "UTF-8"),
        ({"line": delivery(1, note="a\u0000b")["line"]}, "NUL"),
        ({"line": "x" * 70_000}, "at most 64000 bytes"),
        ({"line": {"kind": "pass"}}, "line is {'kind': 'pass'}; expected the entry's canonical line as text"),
        ({"line": None}, "line is missing"),
        ({"line": '{"seq":1152921504606846976}'}, "2^53"),
        ({"sent_at": "noon"}, "sent_at: 'noon' is not a moment"),
        ({"sent_at": 5}, "sent_at: 5 is not a moment"),
        ({"device": None}, "device is missing"),
        ({"device": "x" * 61}, "device is"),
        ({"device": "a\u0000"}, "device is"),
    ],
)
def test_whatever_has_an_id_gets_a_receipt(asker: Asker, change: dict[str, Any], problem: str):
    """What cannot be understood is taken all the same and its problem named; sent again it is the same."""
    sent = delivery(1) | change
    for taken in ("taken, not understood", "taken before"):
        answer = asker.send(sent)
        assert answer.status_code == 200
        (receipt,) = receipts(answer)
        assert (receipt["taken"], receipt["position"]) == (taken, 1)
        assert problem in receipt["problem"], receipt["problem"]


@pytest.mark.parametrize("name", [None, "", "ab", 5, "x" * 161, "a\u0000bc", "a\ud800bc", "a\nbc", ["abc"]])
def test_without_an_id_there_can_be_no_receipt(asker: Asker, record: Record, name: Any):
    """What has no proper id is not taken, which is said with field and value; everything beside it is."""
    answer = asker.send(delivery(1), delivery(2) | {"id": name}, delivery(3))
    assert answer.status_code == 422
    assert "deliveries[1].id is" in answer.json()["detail"]
    assert [receipt["taken"] for receipt in receipts(answer)] == ["taken", "taken"]
    with record.reads() as reads:
        assert reads.last_position() == 2


def test_one_bad_entry_does_not_hold_back_the_rest(asker: Asker):
    """In one request a refused copy and something not understood leave the others as they are."""
    asker.send(delivery(1))
    answer = asker.send(delivery(2), delivery(1, joint="J2"), delivery(3, values=MINUS_FORTY), delivery(4))
    assert answer.status_code == 409
    assert [receipt["taken"] for receipt in receipts(answer)] == [
        "taken",
        "refused copy",
        "taken, not understood",
        "taken",
    ]


@pytest.mark.parametrize(
    ("body", "status"),
    [
        (b"", 400),
        (b"{", 400),
        (b"\xff\xfe", 400),
        (b"[" * 100_000, 400),
        (b'{"deliveries":' + b"9" * 5000 + b"}", 400),
        (b"[]", 422),
        (b"{}", 422),
        (b'{"deliveries":{}}', 422),
        (json.dumps({"deliveries": [{}] * 1001}).encode(), 422),
    ],
)
def test_a_body_without_deliveries_is_told_what_is_expected(asker: Asker, body: bytes, status: int):
    """A body in which no delivery can be made out is answered with the shape that is expected."""
    answer = asker.ask("POST", "/api/deliveries", content=body)
    assert answer.status_code == status
    assert answer.headers["content-type"] == "application/problem+json"
    assert "expected" in answer.json()["detail"]
    assert "nothing was taken" in answer.json()["detail"]


def test_an_empty_batch_is_answered(asker: Asker):
    """Nothing sent is nothing answered, and no error."""
    answer = asker.send()
    assert (answer.status_code, answer.json()) == (200, {"receipts": []})


@pytest.mark.parametrize(
    ("trouble", "status", "retry"),
    [(NoRoom(), 507, "5"), (RecordBusy(), 503, "5"), (RecordClosed("the disk failed"), 503, None)],
)
def test_trouble_of_the_record_is_told(
    asker: Asker, record: Record, monkeypatch: pytest.MonkeyPatch, trouble: Exception, status: int, retry: str | None
):
    """A full disk is 507, a closed record 503, each with what to do, and the entries stay on the device."""
    from concurrent.futures import Future

    failed: Future[Any] = Future()
    failed.set_exception(trouble)
    monkeypatch.setattr(record, "write", lambda _: failed)
    answer = asker.send(delivery(1))
    assert answer.status_code == status
    assert answer.headers.get("retry-after") == retry
    assert answer.json()["detail"] == str(trouble)


def test_a_body_of_ten_megabytes_is_refused_with_the_limit(asker: Asker, record: Record):
    """A body that is too large is refused naming the limit, whether its length was announced or not."""

    async def unannounced():
        for _ in range(10):
            yield b"x" * 1_000_000

    for content in (b"x" * 10_000_000, unannounced()):
        answer = asker.ask("POST", "/api/deliveries", content=content)
        assert answer.status_code == 413
        assert answer.headers["content-type"] == "application/problem+json"
        assert f"at most {MOST_BYTES}" in answer.json()["detail"]
    with record.reads() as reads:
        assert reads.last_position() == 0


def test_a_body_just_within_the_limit_is_read(asker: Asker):
    """Control: a large body within the limit is taken."""
    several = [delivery(number, note="x" * 50_000) for number in range(70)]
    answer = asker.send(*several)
    assert 3_500_000 < len(json.dumps({"deliveries": several})) <= MOST_BYTES
    assert [receipt["taken"] for receipt in receipts(answer)] == ["taken"] * 70
