"""Each decision has a number of its own, bears it in its heading, and is there where somebody points to it."""

import re
from collections import Counter
from pathlib import Path

from tests.house.tree import ROOT

DECISIONS = ROOT / "docs" / "decisions"
POINTED = re.compile(r"decisions/(\d{4}-[a-z0-9-]+\.md)")


def odd_ones(told: dict[str, str]) -> list[str]:
    """Name the decisions, by file name and first line, whose number is another's or not in the heading."""
    counts = Counter(name[:4] for name in told)
    twice = [name for name in told if counts[name[:4]] > 1]
    return twice + [name for name, first in told.items() if not first.startswith(f"# {int(name[:4])}. ")]


def test_every_decision_has_its_own_number() -> None:
    """No number twice, each in its heading; two of a number and a heading without one are seen."""
    found = {each.name: each.read_text(encoding="utf-8").splitlines()[0] for each in sorted(DECISIONS.glob("*.md"))}
    assert len(found) > 20
    assert odd_ones(found) == []
    assert odd_ones({"0001-a.md": "# 1. A", "0001-b.md": "# 1. B"}) == ["0001-a.md", "0001-b.md"]
    assert odd_ones({"0002-a.md": "# A"}) == ["0002-a.md"]


def test_a_decision_pointed_to_is_there() -> None:
    """Every decision a paper of the project names by its file is in the folder."""
    papers = [*ROOT.glob("*.md"), *(ROOT / "docs").rglob("*.md")]
    named = {name: paper.name for paper in papers for name in POINTED.findall(paper.read_text(encoding="utf-8"))}
    assert len(named) > 10
    assert {name: paper for name, paper in named.items() if not Path(DECISIONS / name).is_file()} == {}
