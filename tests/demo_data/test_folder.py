"""The folder as written: the same bytes for the same seed, readable, and another shop for another version."""

import hashlib
import json
import re
from collections import Counter
from dataclasses import replace
from pathlib import Path

from demo_data.generator.elsewhere import VERSIONS
from demo_data.generator.folder import write_shop
from demo_data.generator.story import Story
from server.work.shop_folder import read_shop_folder
from tests.demo_data.told import Told

FRAMES = 24


def bytes_of(folder: Path) -> dict[str, str]:
    files = (file for file in sorted(folder.rglob("*")) if file.is_file())
    return {file.relative_to(folder).as_posix(): hashlib.sha256(file.read_bytes()).hexdigest() for file in files}


def test_the_same_seed_gives_the_same_bytes(small: Path, tmp_path: Path) -> None:
    """Written again, every file is the same; with another seed the log is another and the registers' heads are not."""
    write_shop(tmp_path / "again", "small")
    assert bytes_of(tmp_path / "again") == bytes_of(small)
    write_shop(tmp_path / "other", "small", replace(VERSIONS["first"], seed=9))
    other = bytes_of(tmp_path / "other")
    assert other["deliveries.jsonl"] != bytes_of(small)["deliveries.jsonl"]
    assert other["people.toml"] == bytes_of(small)["people.toml"]


def test_it_reads_as_a_shop_folder(small: Path) -> None:
    """The loader finds nothing wrong in it, and 24 frames."""
    told = list(read_shop_folder(small).in_order())
    frames = {item.noun.frame for item in told if hasattr(item, "noun") and item.noun.kind == "packet"}
    assert len(frames) == FRAMES
    assert "MB-0871" in frames


def test_findings_are_never_written(small: Path) -> None:
    """Nothing the loader reads holds a verdict: findings are named only by what people signed."""
    text = (small / "deliveries.jsonl").read_text(encoding="utf-8")
    assert not re.search(r'\\"(verdict|severity|question)\\"', text)


def test_the_moved_shop_is_told_in_other_words(moved: Path, small: Path) -> None:
    """No serial, person, tablet, line or cylinder of the first shop occurs in the moved one, nor a day of its own."""
    text, first = ("".join(map(_text, sorted(folder.glob("*.*")))) for folder in (moved, small))
    codes = ("MT-0", "MB-0", "W01", "Q01", "TAB-", "B1-P", "AR-0", "FT-0", "PA-1", "PS-1", "W-26")
    for word in (*codes, "2025-01-", "Merrowby"):
        assert word not in text, word
        assert word in first, word
    assert read_shop_folder(moved).lines > 5000


def test_the_small_moved_shop_tells_the_frames_its_own_incidents_touch(moved: Path, small: Path) -> None:
    """With the incidents the frames move: the small moved table plants what the small one plants, on as many frames."""
    tables = [[json.loads(line) for line in _text(folder / "truth.jsonl").splitlines()] for folder in (moved, small)]
    planted, first = (
        Counter(row["question"] for row in table if (row["incident"] == "chance", row["book"]) == (False, "then"))
        for table in tables
    )
    assert planted == first
    frames = [_text(folder / "packets.toml").count("[[packet]]") for folder in (moved, small)]
    # The frame older than the record comes with its own paper.
    assert frames[0] == frames[1] == FRAMES - 1


def _text(file: Path) -> str:
    return file.read_text(encoding="utf-8")


def test_the_moved_shop_plants_as_much(full: Told, moved_story: Story) -> None:
    """The moved history plants as many findings of every kind, and most of them about other frames and days."""
    planted, before = (
        [row for row in story.truth if row["incident"] != "chance" and row["book"] == "then"]
        for story in (moved_story, full.story)
    )
    assert Counter(row["question"] for row in planted) == Counter(row["question"] for row in before)
    same = {row["subject"] for row in planted} & {row["subject"] for row in before}
    assert len(same) < len(planted) / 3
    assert moved_story.happenings != full.story.happenings


def test_each_moved_incident_lies_on_other_frames(full: Told, moved_story: Story) -> None:
    """Before anything is renamed, no frame of a moved incident is one it lay on in the first telling."""
    for name in {name.rstrip("ab") for name in VERSIONS["moved"].moves}:
        there, here = (_frames(story, name) for story in (moved_story, full.story))
        assert len(there) == len(here), name
        assert not there & here, name


def _frames(story: Story, incident: str) -> set[str]:
    subjects = (row["subject"] for row in story.truth if row["incident"] == incident)
    return {subject.partition("/")[0].partition("@")[0] for subject in subjects if subject.startswith("MT-")}
