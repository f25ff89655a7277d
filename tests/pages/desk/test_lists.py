"""Every list has a cell for each of its columns, of the kind its sheet says."""

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest
from starlette.datastructures import QueryParams

from server.documents.list_csv import Cell
from server.pages.lists.a_list import AList, AskedList
from server.pages.lists.lists import ASKED_LISTS, LISTS
from server.record.book_of_lines import Record, now_ms
from server.record.door_facts import Device
from server.record.keeping_devices import enrol_device
from server.record.reads import Reads
from server.record.written import Written
from server.work.door_told import BY_COMMAND, door_line
from server.work.judging import judge_everything
from server.work.refusal import NotThere
from tests.story.log import Tablet, moment
from tests.work.small_shop import a_pass, open_shop, send, sign, tell

_SIGNED = {"at": "2030-01-01T00:00:00.000Z", "meaning": "given", "shown_sha256": "0" * 64}
_THEN = moment("11:40")
_KINDS = {"string": str, "integer": int, "number": float, "dateTime": str, "date": str}


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Record]:
    made = open_shop(Path(tmp_path_factory.mktemp("lists")))
    send(made, a_pass(Tablet("SLATE"), "1:00", oxygen="300"))
    both = [_SIGNED | {"person": "LEA", "role": "quality lead"}, _SIGNED | {"person": "OWN", "role": "owner"}]
    tell(made, kind="concession", id="CN-1", frames=["SW-1"], count=2, reason="so", signatures=both)
    tell(made, kind="nonconformity", id="NC-1", title="grey", held=["SW-1/A#1"])
    lot = {"checkpoint_size": 1, "checkpoint_root": "0" * 64, "known_at": 1, "subjects_sha256": "0" * 64}
    drawn = {"welded": 1, "without_finding": 1, "drawn": ["SW-1/A#1"], "drawn_by": "LEA"}
    tell(made, kind="sample draw", id="SD-1", week="2030-W14", **lot, **drawn)
    look = {"draw": "SD-1", "subject": "SW-1/A#1", "outcome": "agrees", "words": "seen"}
    tell(made, kind="second look", id="SL-1", **look, signatures=both[:1])
    slate = Tablet("PAD")
    send(made, slate.tell("0:10", "cylinder", line="N-P", on="C-1"))
    of = {"of_kind": "filler lot", "of": "L", "name": "lot.pdf", "sha256": "0" * 64, "length": 9, "told_by": "LEA"}
    tell(made, kind="certificate file", id="CF-1", **of)
    with made.reads() as reads:
        held = next(iter(reads.registers().qualifications))
    tell(made, kind="confirmation", id="K-1", qualification=held, dated="2030-01-01", by="LEA")
    send(made, slate.tell("5:00", "bead", line="N-P", result="failed"))
    with made.reads() as reads:
        keys = [each.key for each in reads.findings() if each.verdict.question == "purge-o2"]
    sign(made, "accept", keys)
    signed = {"permits": "hold point", "frame": "SW-1", "joint": "A", "known_at": 1, "signatures": both[:1]}
    tell(made, kind="permission", id="P-1", **signed)
    _out_and_claimed(made, both)
    yield made
    made.close()


def _out_and_claimed(made: Record, both: list[dict[str, str]]) -> None:
    """The frame is released over what is open and shipped; it is claimed, contained and held; somebody stands in."""
    tell(made, kind="customer", id="C-1", name="Ida Mole")
    over = {"permits": "release", "frame": "SW-1", "known_at": 30, "reason": "so", "open_findings": ["x|y"]}
    tell(made, kind="permission", id="P-2", signatures=both[1:], **over)
    tell(made, kind="shipment", id="S-1", frame="SW-1", customer="C-1", at=moment("11:20"))
    by = {"written_by": "OWN", "at": _THEN}
    told = {"serial": "SW-1", "joint": "A", "reported_by": "C-1", "symptom": "it creaks"}
    tell(made, kind="claim", id="W-1", reported=_THEN, knew=_THEN, written_by="OWN", **told)
    tell(made, kind="claim step", id="W-1/1", claim="W-1", step="letter", words="please stop", **by)
    found = {"because": "one bead", "notice": "please wait", "known_at": 9}
    tell(made, kind="containment", id="CT-1", title="one line", frames=["SW-1"], **found, **by)
    step = {"containment": "CT-1", "frame": "SW-1", "act": "told", "words": "by telephone"}
    tell(made, kind="containment step", id="CT-1/1", **step, **by)
    tell(made, kind="legal hold", id="H-1", frame="SW-1", act="placed", at=_THEN, reason="counsel", signatures=both[1:])
    absent = {"person": "OWN", "absent": "LEA", "role": "quality lead", "since": _THEN, "until": _THEN}
    tell(made, kind="stand-in", id="SI-1", reason="away", signatures=both[:1], **absent)
    told_of = door_line("tablet enrolled", BY_COMMAND, now_ms(), tablet="T-1", words="by the vice")
    device = enrol_device(Device("T-1", "by the vice", "N", "0" * 64, now_ms()))
    made.write(lambda _: Written(lambda _: None, lines=(told_of,), changes=(device,))).result()
    slate = Tablet("CHALK")
    runs = [{"run": "root"}, {"run": "fill", "sleeve": "S-1"}]
    oxygen = [str(8 + 300 * (at % 2)) for at in range(48)]
    about = [(f"2:{10 + at}", "AB"[at % 2], each, runs[at % 4 // 2]) for at, each in enumerate(oxygen)]
    send(made, *(a_pass(slate, clock, joint, each, **run) for clock, joint, each, run in about))
    send(made, a_pass(slate, "3:10", "C", who="OWN"))
    judge_everything(made)


def _hold_to_its_sheet(wanted: AList | AskedList, rows: list[list[Cell]] | object) -> None:
    assert isinstance(rows, list)
    assert rows, "an empty list proves nothing"
    for row in rows:
        for cell, column in zip(row, wanted.columns, strict=True):
            assert cell is None or isinstance(cell, _KINDS[column.kind]), (column, cell)


@pytest.mark.parametrize("name", LISTS)
def test_a_cell_for_every_column(shop: Record, name: str):
    """No row is shorter or longer than its head, and a value is of the kind its column promises or missing."""
    with shop.reads() as reads:
        _hold_to_its_sheet(LISTS[name], LISTS[name].rows(reads))


_ASKED = {
    "measured": "shared=welder", "capability": "shared=welder", "compared": "shared=run", "watched-fault": "",
    "found": "", "checks": "", "joint-life": "", "survival": "", "what-else": "kind=welder&id=WEL",
    "what-else-checks": "kind=line&id=N-P",
    "claims-by-lot": "kind=welder&id=WEL", "release-day": "serial=SW-1", "causes": "serial=SW-1&joint=A",
    "sharing": "serial=SW-1&joint=A", "frame-certificates": "serial=SW-1",
}  # fmt: skip


@pytest.mark.parametrize("name", ASKED_LISTS)
def test_a_list_of_one_question_has_a_cell_for_every_column(shop: Record, name: str):
    """The same holds of the lists whose address carries the question of their page."""
    with shop.reads() as reads:
        _hold_to_its_sheet(ASKED_LISTS[name], ASKED_LISTS[name].asked(reads, QueryParams(_ASKED[name])))


def _measured(reads: Reads, asked: str) -> list[dict[str, Cell]]:
    wanted = ASKED_LISTS["measured"]
    heads = [each.name for each in wanted.columns]
    return [dict(zip(heads, row, strict=True)) for row in wanted.asked(reads, QueryParams(asked))]


def test_the_points_are_those_of_the_charts(shop: Record):
    """Value, limits and moving range of every pass agree with one another, and a list nobody asked well is refused."""
    with shop.reads() as reads:
        rows = _measured(reads, "shared=welder")
        assert {row["frame"] for row in rows} == {"SW-1"}
        for before, row in pairwise(rows):
            assert row["moving_range"] == pytest.approx(abs(float(row["value"] or 0) - float(before["value"] or 0)))
        assert {row["single_low"] for row in rows} == {None}
        for wrong in ("quantity=luck", "shared=moon"):
            with pytest.raises(NotThere):
                _measured(reads, wrong)


def test_who_may_have_a_list_is_told_by_the_list():
    """What the office sees on its screens it may have as a list; the lists of the desk stay with those who decide."""
    assert {name for name, each in (LISTS | ASKED_LISTS).items() if "office" in each.roles} == {
        "causes", "claim-steps", "claims", "claims-by-lot", "containments", "frame-certificates", "holds", "joint-life",
        "release-day", "serials", "sharing", "survival", "what-else", "what-else-checks",
    }  # fmt: skip
    roles = {name: set(each.roles) for name, each in (LISTS | ASKED_LISTS).items()}
    assert {name for name, held in roles.items() if held == {"owner"}} == {"customers", "door", "people", "tablets"}
    assert all({"quality lead", "owner"} <= held for held in roles.values() if held != {"owner"})
