"""One line of a limit card against a value, from the case file the tablet's script runs as well."""

import json
import math
from pathlib import Path

import pytest

from server.facts.limit_card import CardLine
from server.procedures.card_check import NotAValue, check_line

CASES = json.loads((Path(__file__).resolve().parents[1] / "cards" / "cases.json").read_text(encoding="utf-8"))["cases"]


def line_of(case) -> CardLine:
    return CardLine.model_validate(case["line"] | {"allowed": tuple(case["line"].get("allowed", ()))})


@pytest.mark.parametrize("case", [case for case in CASES if "answer" in case], ids=lambda case: case["what"])
def test_a_case_gets_its_word(case) -> None:
    """Each case of the shared file gets the word, and the proof or lack of it, that stands beside it."""
    found = check_line(line_of(case), case["value"], case["asked"])
    assert {"word": found.word.value, "proved": found.proved} == case["answer"]


@pytest.mark.parametrize("case", [case for case in CASES if "refused" in case], ids=lambda case: case["what"])
def test_what_is_no_value_is_refused(case) -> None:
    """What cannot be held against a line is refused and not guessed at."""
    with pytest.raises(ValueError, match=r"\S"):
        check_line(line_of(case), case["value"], case["asked"])


def test_a_refused_value_is_told_with_what_to_write() -> None:
    """A value with a comma is told back with its line, its unit and an example."""
    case = next(case for case in CASES if case["value"] == "12,5")
    with pytest.raises(NotAValue, match=r"oxygen: '12,5' is not decimal text; write the value in ppm as 12.5"):
        check_line(line_of(case), case["value"])


@pytest.mark.parametrize(
    ("written", "doubt"),
    [("0.15", 0.15), ("3 %", 1.2), ("sqrt(1, 5 %)", math.sqrt(5.0)), ("sqrt(5 %, 1)", math.sqrt(5.0))],
)
def test_a_doubt_is_read_as_written(written: str, doubt: float) -> None:
    """A fixed doubt, a share of the reading, and the root of both squared give what arithmetic gives at 40."""
    line = CardLine(
        name="x", words="x", unit="ppm", high="900", uncertainty=written, when="never", source="its own", beyond="Stop."
    )
    assert check_line(line, "40").uncertainty == pytest.approx(doubt, rel=1e-12)
