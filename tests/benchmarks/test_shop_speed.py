"""Reach of the whole road, from a shop folder into the record and from a closed file to verdicts kept."""

from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from server.facts.moment import show_moment
from server.record.book_of_lines import Record, now_ms
from server.record.written import Written
from server.work import judging_beside
from server.work.judging import judge_everything, judge_frames
from server.work.sent_delivery import from_request
from server.work.take_deliveries import take_deliveries
from server.work.telling import told_line
from tests.benchmarks.shop_speed import ShopSpeed, make, processor_s, speed_of
from tests.benchmarks.turns import multiple
from tests.record.fixtures import url_of
from tests.story.log import LINES, Tablet, counted
from tests.work.small_shop import open_shop

ABOUT = {"run": "root", "setup": "one", "machine": "PW", "sleeve": "none"}


def beyond(speed: ShopSpeed) -> dict[str, float]:
    """Give what took more floors than it may, with how many."""
    floor_s = speed.bare_parsing_s + speed.guarded_inserting_s
    loading, judging = speed.loading_s / floor_s, speed.judging_s / floor_s
    return ({"loading": loading} if loading >= 5 else {}) | ({"judging": judging} if judging >= 2.5 else {})


def test_the_small_shop(tmp_path: Path):
    """Loading and judging cost a few bare parsings and guarded insertions of the same rows."""
    shop = make(tmp_path, "small")
    # 8.9 and 3.6 floors two rounds of work ago, 3.0 and 1.5 since.
    speed = speed_of(shop, tmp_path, rounds=1, longer=8, enough=lambda found: beyond(found) == {})
    assert beyond(speed) == {}


def history(folder: Path, frames: int) -> list[str]:
    """Weld so many frames of the story's shop, six passes each, and close the record."""
    names = [f"SW-{number}" for number in range(100, 100 + frames)]
    packet = {"kind": "packet", "design": "DUNE", "size": "M", "bench": "N", "issued": show_moment(now_ms())}
    lines = [told_line(packet | {"id": name, "frame": name}, now_ms()) for name in names]
    tablet = Tablet("SLATE")
    with closing(open_shop(folder)) as record:
        record.write(lambda _: Written(answer=lambda _: None, lines=lines)).result()
        for name in names:
            about: dict[str, Any] = ABOUT | LINES | {"frame": name, "values": counted("40", "10", "80", "8")}
            welded = [tablet.tell(at, "pass", joint=joint, **about) for joint in "ABC" for at in ("1:00", "2:00")]
            take_deliveries(record, [from_request(each, "sent", now_ms()) for each in welded]).result()
    return names


def judging_s(folder: Path) -> float:
    """Give how long judging everything takes from the closed file [s]."""
    with closing(Record.open(url_of(folder / "record.sqlite3"))) as record:
        return processor_s(lambda: judge_everything(record))


def test_ten_times_the_history_from_a_closed_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """Ten times the frames in the file are judged in at most eleven times the time, and a fifth for a busy machine."""
    # The larger shop would be judged by two processes, and starting one takes longer than the smaller shop.
    monkeypatch.setattr(judging_beside, "cores", lambda: 1)
    few, many = tmp_path / "few", tmp_path / "many"
    for folder, frames in ((few, 20), (many, 200)):
        folder.mkdir()
        history(folder, frames)
    judging_s(few)
    most = 1.2 * 11.0
    assert multiple(many, few, most, rounds=2, timed=judging_s) <= most


def test_a_batch_of_frames_asks_as_much_as_one(tmp_path: Path):
    """Twenty frames are asked about in as many statements as one, and sixty in no more than three times as many."""
    names = history(tmp_path, 60)
    with closing(Record.open(url_of(tmp_path / "record.sqlite3"))) as record:
        judge_everything(record)
        asked = {}
        for count in (1, 20, 60):
            with record.counting() as seen:
                judge_frames(record, names[:count])
            asked[count] = len(seen)
    assert asked[1] == asked[20]
    assert asked[60] <= 3 * asked[20]
