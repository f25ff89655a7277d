"""A recording changes what is judged: the heat input of its pass is held by the measured energy, with its doubt."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.facts.judged import Verdict, Word
from server.record.book_of_lines import Record, now_ms
from server.record.files import Files
from server.work.attach_trace import TraceAsked, attach_trace
from server.work.judge_new import judge_new
from tests.story.log import Tablet
from tests.work import recordings
from tests.work.small_shop import a_pass, open_shop, send


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    """The story's shop with one root pass: 40 A, 10 V and 80 s counted."""
    made = open_shop(tmp_path)
    tablet = Tablet("SLATE")
    send(made, tablet.on_joint("1:00", "tack", "A", setup="one"), a_pass(tablet, "1:10"))
    yield made
    made.close()


def heat_input(record: Record) -> Verdict:
    with record.reads() as reads:
        found = reads.verdicts_of_frame("SW-1")
    return next(each for verdicts in found.values() for each in verdicts if each.question == "heat-input")


def attach(record: Record, folder: Path, content: bytes) -> None:
    with record.reads() as reads:
        of = next(each.entry.id for each in reads.frame_entries("SW-1") if each.entry.kind == "pass")
    attach_trace(record, Files(folder), TraceAsked(of, "PW", content, "WEL"), now_ms())
    judge_new(record)


def test_the_measured_energy_is_held_against_the_limit(shop: Record, tmp_path: Path) -> None:
    """Counted means make 32 kJ; the recording's 7.6 kJ over the same seam is what is judged once it is attached."""
    before = heat_input(shop)
    attach(shop, tmp_path, recordings.text())
    after = heat_input(shop)
    assert isinstance(before.value, float)
    assert after.value == pytest.approx(before.value * sum(recordings.ENERGIES_J) / 32_000.0, rel=0.01)


def test_a_hot_recording_is_outside_though_the_counter_said_within(shop: Record, tmp_path: Path) -> None:
    """With ten times the amps in the recording the verdict is outside; what was counted stands in the pass."""
    assert heat_input(shop).word is not Word.OUTSIDE
    attach(shop, tmp_path, recordings.text().replace(b";40.0;", b";400.0;"))
    assert heat_input(shop).word is Word.OUTSIDE
    with shop.reads() as reads:
        entries = [each.entry for each in reads.frame_entries("SW-1")]
    assert next(each for each in entries if each.kind == "pass").values["mean_current"].value == 40.0


def test_an_undecided_recording_changes_no_verdict(shop: Record, tmp_path: Path) -> None:
    """Half a bead missing gives no figure, so the counted means go on being what is judged."""
    before = heat_input(shop)
    attach(shop, tmp_path, recordings.broken())
    assert heat_input(shop).value == before.value
