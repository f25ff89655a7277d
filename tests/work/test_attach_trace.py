"""A recording attached to its pass: kept before it is named, its energy added, nothing typed replaced, never twice."""

import hashlib
from pathlib import Path
from typing import Any

import pytest

from server.facts.supplies import Trace
from server.record.book_of_lines import Record
from server.record.files import FileNotKept, Files
from server.work.attach_trace import Attached, AttachedBefore, TraceAsked, attach_trace
from server.work.frame_passes import one_pass
from server.work.refusal import NotThere, Unreadable
from tests.record.fixtures import append
from tests.record.sample_lines import RECEIVED, entry_told, new_entry
from tests.work import recordings

TYPED = {"mean_current": {"value": "44", "unit": "A", "how": "typed"}}


def attach(record: Record, folder: Path, of: str, content: bytes | None = None, **further: Any) -> Attached:
    asked: dict[str, Any] = {"of": of, "instrument": recordings.INSTRUMENT, "who": "P1"}
    asked |= {"content": recordings.text() if content is None else content} | further
    return attach_trace(record, Files(folder), TraceAsked(**asked), RECEIVED + 60_000)


def traces_of(record: Record, of: str) -> tuple[Trace, ...]:
    with record.reads() as reads:
        return one_pass(reads, of).traces


def test_the_pass_gets_its_measured_energy(record: Record, tmp_path: Path) -> None:
    """An entry of the log names pass, file, instrument and energy with its doubt; the file is kept by its SHA-256."""
    of = recordings.shop_with_a_pass(record)
    attached = attach(record, tmp_path, of)
    (trace,) = traces_of(record, of)
    assert attached.receipt.taken == "taken"
    assert attached.receipt.problem is None
    assert (trace.id, trace.instrument, trace.who) == (attached.receipt.entry, recordings.INSTRUMENT, "P1")
    assert trace.sha256 == hashlib.sha256(recordings.text()).hexdigest()
    assert recordings.kept(tmp_path) == [recordings.text()]
    assert trace.values["arc_energy"].value == pytest.approx(sum(recordings.ENERGIES_J), rel=0.01)
    assert trace.energy_doubt_j == pytest.approx(0.05 * trace.values["arc_energy"].value, rel=0.01)
    with record.reads() as reads:
        line = reads.line(trace.id)
    assert line is not None
    assert line.frame == "F-1"


def test_nothing_typed_is_replaced(record: Record, tmp_path: Path) -> None:
    """What the pass tells by itself stands, and the recording does not say it again."""
    of = recordings.shop_with_a_pass(record, values=TYPED)
    attach(record, tmp_path, of)
    (trace,) = traces_of(record, of)
    assert set(trace.values) == {"arc_energy", "arc_on", "volts"}
    with record.reads() as reads:
        assert one_pass(reads, of).entry.values["mean_current"].value == 44.0


def test_some_beads_belong_to_the_pass(record: Record, tmp_path: Path) -> None:
    """Only the beads named count, and the entry says which."""
    of = recordings.shop_with_a_pass(record)
    attach(record, tmp_path, of, beads=(3, 2, 2))
    (trace,) = traces_of(record, of)
    assert trace.beads == (2, 3)
    assert trace.values["arc_energy"].value == pytest.approx(3600.0, rel=0.01)


def test_the_same_is_attached_once(record: Record, tmp_path: Path) -> None:
    """The same beads of the same file for the same pass are refused the second time; other beads are another entry."""
    of = recordings.shop_with_a_pass(record)
    attach(record, tmp_path, of, beads=(1,))
    with pytest.raises(AttachedBefore):
        attach(record, tmp_path, of, beads=(1, 1))
    attach(record, tmp_path, of, beads=(2,))
    assert [trace.beads for trace in traces_of(record, of)] == [(1,), (2,)]
    assert len(recordings.kept(tmp_path)) == 1


def test_one_bead_belongs_to_one_pass(record: Record, tmp_path: Path) -> None:
    """A bead attached to one pass is refused to another of the frame, which is named; beads left over are not."""
    of = recordings.shop_with_a_pass(record)
    append(record, new_entry(2, run="fill", values={}))
    other = str(entry_told(2)["id"])
    attach(record, tmp_path, of, beads=(1, 2))
    for beads in ((2, 3), ()):
        with pytest.raises(AttachedBefore, match=f"root, {of}"):
            attach(record, tmp_path, other, beads=beads)
    attach(record, tmp_path, other, beads=(3,))
    assert [trace.beads for trace in traces_of(record, other)] == [(3,)]


def test_an_undecided_recording_is_kept_without_a_figure(record: Record, tmp_path: Path) -> None:
    """With half a bead missing the file and its doubts are in the record, and no energy is."""
    of = recordings.shop_with_a_pass(record)
    attach(record, tmp_path, of, recordings.broken())
    (trace,) = traces_of(record, of)
    assert (trace.values, trace.energy_doubt_j) == ({}, None)
    assert any("between" in flag for flag in trace.flags)


@pytest.mark.parametrize(
    ("wrong", "kind"),
    [
        ({"of": "nobody"}, NotThere),
        ({"instrument": "XX-9"}, NotThere),
        ({"content": b"not a recording"}, Unreadable),
        ({"beads": (9,)}, Unreadable),
    ],
)
def test_what_is_wrong_leaves_nothing(
    record: Record, tmp_path: Path, wrong: dict[str, Any], kind: type[Exception]
) -> None:
    """An unknown pass or instrument, a bad file, a bead that is not there: no entry and no file."""
    of = recordings.shop_with_a_pass(record)
    with record.reads() as reads:
        before = reads.last_position()
    with pytest.raises(kind):
        attach(record, tmp_path, **({"of": of} | wrong))
    with record.reads() as reads:
        assert reads.last_position() == before
    assert recordings.kept(tmp_path) == []


def test_a_file_that_is_not_kept_is_not_named(record: Record, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When the disk does not take the file no line is appended that would name it."""
    of = recordings.shop_with_a_pass(record)

    def refuse(*_: object) -> str:
        raise FileNotKept("worn out")

    monkeypatch.setattr(Files, "keep", refuse)
    with pytest.raises(FileNotKept):
        attach(record, tmp_path, of)
    assert traces_of(record, of) == ()


def test_a_withdrawn_pass_takes_no_recording(record: Record, tmp_path: Path) -> None:
    """A recording goes to a pass that stands."""
    of = recordings.shop_with_a_pass(record)
    append(record, new_entry(7, "correction", of=of, withdraw=True, reason="another frame"))
    with pytest.raises(NotThere, match="withdrawn"):
        attach(record, tmp_path, of)
