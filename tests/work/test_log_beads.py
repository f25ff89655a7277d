"""Free beads offered as passes: the offer logs nothing, the welder's click logs them once, nobody else's does."""

from dataclasses import replace
from pathlib import Path

import pytest

from server.facts.entry import QUARTERS
from server.facts.moment import parse_moment
from server.facts.welding import Pass
from server.record.book_of_lines import Record
from server.record.files import Files
from server.work.attach_trace import TraceAsked, attach_trace
from server.work.beside_trace import Beside, beside_of
from server.work.frame_passes import TracedPass, frame_passes
from server.work.house_entry import Writing
from server.work.log_beads import BeadAsked, log_beads
from server.work.offered_beads import BeadOffered, offered_beads
from server.work.refusal import NotYours, Refusal
from server.work.trace_read import read_trace
from tests.record.sample_lines import FRAME, RECEIVED
from tests.work import recordings

ENDED_MS = parse_moment("2025-03-18T12:38:05.000Z")
WRITING = Writing("P1", "welder", RECEIVED + 90_000, 10)
SECOND = BeadAsked(2, "fill", ("q3",))


def attached(record: Record, folder: Path, beads: tuple[int, ...] = (1,)) -> Beside:
    """Attach some beads of the recording to the pass, and stand beside it."""
    of = recordings.shop_with_a_pass(record)
    trace = TraceAsked(of, recordings.INSTRUMENT, recordings.text(), "P1", beads=beads)
    attach_trace(record, Files(folder), trace, RECEIVED + 60_000)
    found = beside_of(record, of, trace.sha256, read_trace(recordings.text()))
    assert found is not None
    return found


def passes(record: Record) -> list[TracedPass]:
    with record.reads() as reads:
        return frame_passes(reads, FRAME)


def offers(record: Record, beside: Beside) -> tuple[BeadOffered, ...]:
    with record.reads() as reads:
        return offered_beads(reads, beside)


def test_the_beads_left_over_are_offered(record: Record, tmp_path: Path) -> None:
    """Beads 2 and 3 are free; their times are reckoned from the pass's own end; the offer logs nothing."""
    beside = attached(record, tmp_path)
    second, third = offers(record, beside)
    assert (second.number, third.number, second.logged) == (2, 3, False)
    assert second.began_ms - ENDED_MS == pytest.approx(8_000, abs=30)
    assert third.ended_ms - ENDED_MS == pytest.approx(22_000, abs=30)
    assert float(second.measured.values["arc_energy"]["value"]) == pytest.approx(2000.0, rel=0.01)
    assert len(passes(record)) == 1


def test_a_recording_attached_whole_offers_nothing(record: Record, tmp_path: Path) -> None:
    """When all beads belong to the pass none is left."""
    assert offers(record, attached(record, tmp_path, ())) == ()


def test_a_bead_logged_is_a_pass_of_its_welder(record: Record, tmp_path: Path) -> None:
    """It takes over place, lines, rod and machine from the pass beside it, and its figures are counted."""
    beside = attached(record, tmp_path)
    receipts = log_beads(record, beside, [SECOND], WRITING)
    assert [receipt.taken for receipt in receipts] == ["taken", "taken"]
    new = next(each for each in passes(record) if each.entry.id == receipts[0].entry)
    entry, beside_it = new.entry, beside.to.entry
    for name in ("who", "frame", "joint", "attempt", "torch_line", "purge_line", "sleeve", "machine"):
        assert getattr(entry, name) == getattr(beside_it, name), name
    assert (entry.run, entry.quarters) == ("fill", ("q3",))
    assert {(each.how, each.by) for each in entry.values.values()} == {("counted", recordings.INSTRUMENT)}
    assert entry.late_reason is not None
    assert entry.arc_started is not None
    assert entry.happened - entry.arc_started == pytest.approx(5_000, abs=30)
    assert [(trace.beads, trace.values) for trace in new.traces] == [((2,), {})]
    assert new.traces[0].energy_doubt_j == pytest.approx(100.0, rel=0.02)


def test_logged_twice_it_is_one_pass(record: Record, tmp_path: Path) -> None:
    """A second click, a moment later, adds no second pass, and the offer says that the bead is logged."""
    beside = attached(record, tmp_path)
    log_beads(record, beside, [SECOND], WRITING)
    with pytest.raises(Refusal, match="bead 2 is logged already"):
        log_beads(record, beside, [SECOND], replace(WRITING, now_ms=WRITING.now_ms + 500))
    assert len(passes(record)) == 2
    assert [offer.logged for offer in offers(record, beside)] == [True, False]


def test_only_the_welder_logs_them(record: Record, tmp_path: Path) -> None:
    """Somebody else is refused by name, and nothing is logged."""
    beside = attached(record, tmp_path)
    with pytest.raises(NotYours, match="P1"):
        log_beads(record, beside, [SECOND], Writing("P2", "quality lead", RECEIVED, 10))
    assert len(passes(record)) == 1


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ([], "none chosen"),
        ([BeadAsked(1, "root", QUARTERS)], "not free"),
        ([BeadAsked(8, "root", QUARTERS)], "not free"),
    ],
)
def test_a_bead_that_is_not_free_is_not_logged(
    record: Record, tmp_path: Path, asked: list[BeadAsked], said: str
) -> None:
    """No bead, the pass's own bead, and one that is not there are refused."""
    with pytest.raises(Refusal, match=said):
        log_beads(record, attached(record, tmp_path), asked, WRITING)
    assert len(passes(record)) == 1


def test_a_recording_not_attached_is_beside_nothing(record: Record, tmp_path: Path) -> None:
    """Without its trace entry there is nothing to reckon from."""
    of = recordings.shop_with_a_pass(record)
    assert beside_of(record, of, "ab" * 32, read_trace(recordings.text())) is None
    assert isinstance(passes(record)[0].entry, Pass)
