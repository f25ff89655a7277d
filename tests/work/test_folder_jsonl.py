"""Papers and deliveries of a folder, read line by line."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from server.facts.delivery import Delivery
from server.facts.moment import parse_moment
from server.sheets.complaint import Complaint
from server.work.folder_jsonl import read_deliveries, read_papers

NOON, LATER = "2025-03-18T11:00:00.000Z", "2025-03-18T12:00:00.000Z"
PAPER = {"received_at": NOON, "line": {"kind": "customer", "id": "c", "name": "A"}}
SENT = {"id": "d-1", "device": "t", "sent_at": NOON, "received_at": NOON, "line": "{}"}
Write = Callable[..., Path]


@pytest.fixture
def write(tmp_path: Path) -> Write:
    """Write values, or text as it is, as the lines of a file."""

    def written(*lines: Any) -> Path:
        file = tmp_path / "some.jsonl"
        file.write_text("".join(f"{line if isinstance(line, str) else json.dumps(line)}\n" for line in lines))
        return file

    return written


def complaint(items: list[Any]) -> Complaint:
    (found,) = [item for item in items if isinstance(item, Complaint)]
    return found


def test_a_paper_becomes_a_register_line(write: Write) -> None:
    """A paper is the noun it tells, in its words, known from the moment it was received."""
    (line,) = read_papers(write(PAPER))
    assert not isinstance(line, Complaint)
    assert (line.noun.name, line.received_ms, line.words) == ("A", parse_moment(NOON), PAPER["line"])


def test_a_delivery_is_taken_as_it_was_sent(write: Write) -> None:
    """A delivery keeps its line as text; what the line says is not looked into."""
    (sent,) = read_deliveries(write({**SENT, "line": "not even JSON"}))
    assert isinstance(sent, Delivery)
    assert (sent.id, sent.line, sent.received_at) == ("d-1", "not even JSON", parse_moment(NOON))


def test_a_folder_without_the_file_tells_nothing(tmp_path: Path) -> None:
    """A file that is not there is no fault."""
    assert list(read_papers(tmp_path / "papers.jsonl")) == []


def test_a_broken_line_is_named_and_the_others_are_read(write: Write) -> None:
    """What is no JSON is named by file and line, and what follows is read all the same."""
    items = list(read_deliveries(write(SENT, '{"id": ', {**SENT, "id": "d-2"})))
    assert (complaint(items).file, complaint(items).line) == ("some.jsonl", 2)
    assert [item.id for item in items if isinstance(item, Delivery)] == ["d-1", "d-2"]


def test_a_field_of_a_paper_is_named(write: Write) -> None:
    """A noun without what it needs is named by its field."""
    told = complaint(list(read_papers(write({"received_at": NOON, "line": {"kind": "customer", "id": "c"}}))))
    assert (told.field, told.value) == ("name", "missing")


def test_a_kind_nobody_knows_is_named(write: Write) -> None:
    """A paper of an unknown kind is named, with the kinds there are."""
    told = complaint(list(read_papers(write({"received_at": NOON, "line": {"kind": "poem"}}))))
    assert (told.field, told.value) == ("line.kind", "'poem'")
    assert "decision" in told.expected


@pytest.mark.parametrize("value", [[], {"line": {}}, {**PAPER, "more": 1}, {"received_at": NOON, "line": "text"}])
def test_a_paper_has_two_parts(write: Write, value: Any) -> None:
    """A paper is a moment and a line, and nothing else."""
    assert "received_at" in complaint(list(read_papers(write(value)))).expected


def test_the_lines_stand_in_the_order_they_arrived(write: Write) -> None:
    """A line received before the one above it is named; one at the same moment is not."""
    told = list(read_deliveries(write({**SENT, "received_at": LATER}, SENT, {**SENT, "received_at": LATER})))
    assert (complaint(told).line, complaint(told).field) == (2, "received_at")
    assert len(told) == 3


def test_a_delivery_says_when_it_arrived(write: Write) -> None:
    """A sending without the moment it first arrived cannot be put in order."""
    told = complaint(list(read_deliveries(write({key: SENT[key] for key in SENT if key != "received_at"}))))
    assert (told.field, told.value) == ("received_at", "missing")
