"""The truth table agrees with the story's own answer key, written by hand."""

import json
import re
from pathlib import Path
from typing import Any

from tests.demo_data.told import Told

KEY = json.loads(Path(__file__).with_name("answer_key.json").read_text(encoding="utf-8"))
_JOINT = re.compile(r"(M[TB]-\d{4}/[A-Z]\d\d)(:q\d+)?")


def plain(subject: str) -> str:
    """One way of writing a subject: a joint always with its attempt, a meter by its day."""
    if found := _JOINT.fullmatch(subject):
        return f"{found[1]}#1{found[2] or ''}"
    return re.sub(r"T\d\d:\d\d$", "", subject) if subject.startswith("PA-2@") else subject


def rows(table: list[dict[str, Any]], *fields: str) -> set[tuple[str, ...]]:
    return {(plain(row["subject"]), *(row[field] for field in fields)) for row in table if row["incident"] != "chance"}


def wanted(part: str, kind: str) -> set[tuple[str, ...]]:
    return {(plain(subject), *rest) for _, subject, *rest in KEY[part][kind]}


def test_everything_in_the_key_is_told(full: Told) -> None:
    """Every finding of the key stands in the truth table, with its word, its severity and its book."""
    missing = wanted("full", "must_find") - rows(full.story.truth, "question", "verdict", "severity", "book")
    # The key names the place, the table the attempt in which the heat added up.
    assert {subject for subject, *_ in missing} == {"MT-0149/J10#1:q3", "MT-0149/J10#1:q6"}


def test_little_is_told_beside_the_key(full: Told) -> None:
    """Beside the key the incidents plant only what the same facts answer too, as label against rod ends."""
    more = rows(full.story.truth, "question") - {row[:2] for row in wanted("full", "must_find")}
    assert {question for _, question in more} == {
        "rod-ends-agree", "outside-colour", "heat-sum", "held-by-failed-check"
    }  # fmt: skip


def test_every_decoy_of_the_key_is_told(full: Told) -> None:
    """What must not be found is told as such, quarter by quarter where the key says every quarter."""
    missing = wanted("full", "must_not_flag") - rows(full.story.decoys, "question", "book")
    assert {subject for subject, *_ in missing} == {"MT-0149/J09#*", "MT-0204/J03:*", "MT-0212/J01:*"}


def test_the_small_shop_tells_its_own_part(small: Path) -> None:
    """The small folder's table holds the key's small part, but for two changes of cylinder.

    Of what was welded between them and the week's next bead the small folder tells nothing, so that bead came in time.
    """
    table = [json.loads(line) for line in (small / "truth.jsonl").read_text().splitlines()]
    missing = wanted("small", "must_find") - rows(table, "question", "verdict", "severity", "book")
    assert {row[:2] for row in missing} == {
        ("B1-P@2025-04-01T13:05", "purge-bead-at-change"), ("B2-P@2025-03-27T13:05", "purge-bead-at-change")
    }  # fmt: skip


def test_chance_is_told_too(full: Told) -> None:
    """Whatever chance put out of its limits stands in the table, decided, and at most a few in a hundred joints."""
    chance = [row for row in full.story.truth if row["incident"] == "chance" and row["book"] == "then"]
    decisions = [paper.line["findings"] for paper in full.story.papers if paper.line["kind"] == "decision"]
    decided = {key for findings in decisions for key in findings if isinstance(key, str)}
    for row in chance:
        if row["severity"] != "note":
            assert f"{row['subject']}|{row['question']}" in decided
    assert 150 < len(chance) < 700
