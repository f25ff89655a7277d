"""The page of security answers every requirement of the list once, and what it claims can be looked at."""

import re

from tests.house.tree import ROOT

PAGE = ROOT / "docs" / "security.md"
# How many requirements each chapter of ASVS 5.0.0 has at levels 1 and 2, counted in OWASP's own table.
CHAPTERS = {1: 27, 2: 11, 3: 19, 4: 10, 5: 9, 6: 35, 7: 18, 8: 7, 9: 7, 10: 29, 11: 14, 12: 9, 13: 13, 14: 9, 15: 13}
CHAPTERS |= {16: 16, 17: 7}
ROW = re.compile(r"^\| (V[\d. V]+) \| (pass|not applicable|not yet) \| (.+) \|$", re.MULTILINE)
LINK = re.compile(r"\]\(([^)]+)\)")


def rows() -> list[tuple[list[str], str, str]]:
    return [(names.split(), answer, why) for names, answer, why in ROW.findall(PAGE.read_text(encoding="utf-8"))]


def test_every_requirement_is_answered_once():
    """All 253 are there, as many in each chapter as the list has, and none twice."""
    names = [name for each, _, _ in rows() for name in each]
    assert sorted(names) == sorted(set(names))
    assert {chapter: sum(name.startswith(f"V{chapter}.") for name in names) for chapter in CHAPTERS} == CHAPTERS
    assert len(names) == 253


def test_no_row_of_the_table_is_overlooked():
    """Every line that begins with a requirement is one of the rows that were read."""
    lines = [line for line in PAGE.read_text(encoding="utf-8").splitlines() if line.startswith("| V")]
    assert len(lines) == len(rows())


def test_a_pass_can_be_looked_at():
    """Every pass links something, and every link leads to a file that is there."""
    assert [names for names, answer, why in rows() if answer == "pass" and not LINK.search(why)] == []
    linked = {target for _, _, why in rows() for target in LINK.findall(why)}
    assert {target for target in linked if not (PAGE.parent / target).resolve().is_file()} == set()
