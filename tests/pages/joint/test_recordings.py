"""A joint draws the recordings of its passes; what cannot be drawn says why, and the page stands all the same."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.record.book_of_lines import now_ms
from server.work.attach_trace import TraceAsked, attach_trace
from tests.pages.shop_app import ShopApp
from tests.story.log import Tablet
from tests.work import recordings
from tests.work.small_shop import a_pass, send


@pytest.fixture
def app(tmp_path: Path) -> Iterator[ShopApp]:
    made = ShopApp(tmp_path)
    send(made.record, a_pass(Tablet("SLATE"), "1:00"), a_pass(Tablet("PAD"), "2:00", "B"))
    trace = TraceAsked("SLATE:b1:1", "PW", recordings.text(), "LEA", "quality lead")
    attach_trace(made.record, made.app.state.files, trace, now_ms())
    yield made
    made.record.close()


def test_amps_volts_and_power_are_drawn_where_the_pass_is(app: ShopApp):
    """The joint of the pass shows three drawings and the way to the recording; another joint shows none."""
    text = app.get("/history/SW-1/A", "LEA").text
    drawn = text.partition("What the machine recorded")[2]
    assert [f"{name} [{unit}]" in drawn for name, unit in (("amps", "A"), ("volts", "V"), ("power", "W"))] == [True] * 3
    assert f"/traces/{recordings_digest(app)}?of=SLATE%3Ab1%3A1&amp;instrument=PW" in drawn
    assert "What the machine recorded" not in app.get("/history/SW-1/B", "LEA").text


def test_the_history_names_it_at_its_joint(app: ShopApp):
    """In the frame's history the recording stands under the joint of its pass, with its energy, and nowhere else."""
    text = app.get("/history/SW-1", "LEA").text
    joint = text.partition('id="joint-A"')[2].partition('id="joint-B"')[0]
    assert "machine trace of SLATE:b1:1" in joint
    assert "arc energy" in joint
    assert text.count("machine trace of") == 1


def test_the_joints_dossier_carries_it(app: ShopApp):
    """The dossier of the pass's joint tells the recording, that of another joint does not."""
    ways = [app.get(f"/history/SW-1/{joint}/dossier.json", "LEA").json()["way"] for joint in ("A", "B")]
    assert [[each["what"] for each in way if each["kind"] == "trace"] for way in ways] == [
        ["machine trace of SLATE:b1:1"],
        [],
    ]


def test_a_recording_whose_file_is_gone_says_so(app: ShopApp, tmp_path: Path):
    """Without its file the page answers and tells that the digest is kept."""
    next(tmp_path.rglob(f"*{recordings_digest(app)[:60]}*")).unlink()
    answer = app.get("/history/SW-1/A", "LEA")
    assert answer.status_code == 200
    assert "Its file is not kept here" in answer.text
    assert "power [W]" not in answer.text


def recordings_digest(app: ShopApp) -> str:
    with app.record.reads() as reads:
        return next(each.entry.sha256 for each in reads.mending() if each.entry.kind == "trace")
