"""Compositions as printed: which analyses a table accepts, rounded to the last digit of its limit."""

import pytest

from server.facts.judged import Word
from server.facts.occasion_material import MaterialOccasion
from server.facts.published_compositions import published
from server.judgement.book import THEN
from server.judgement.judge import judge


def word(name: str, filler: bool, composition: dict[str, float], question: str) -> Word:
    on = MaterialOccasion("lot", filler, name, composition, published(name), {})
    return next(verdict.word for verdict in judge(on, THEN) if verdict.question == question)


@pytest.mark.parametrize(("oxygen", "said"), [(0.15, Word.WITHIN), (0.16, Word.OUTSIDE)])
def test_a_heat_of_grade_9(oxygen: float, said: Word):
    """ASTM B265 table, read in a copy: grade 9 holds at most 0.15 % of oxygen."""
    assert word("Ti-3Al-2.5V", False, {"O": oxygen}, "heat-composition") is said


@pytest.mark.parametrize(
    ("oxygen", "said"), [(0.07, Word.OUTSIDE), (0.08, Word.WITHIN), (0.16, Word.WITHIN), (0.17, Word.OUTSIDE)]
)
def test_a_lot_of_class_2_wire(oxygen: float, said: Word):
    """AWS A5.16 as on a seller's page of ERTi-2 wire: oxygen is a range, 0.08 to 0.16 %."""
    assert word("ERTi-2", True, {"O": oxygen}, "filler-composition") is said


@pytest.mark.parametrize(
    ("name", "limits"),
    [
        ("ERTi-1", {"C": "..0.03", "O": "0.03..0.10", "N": "..0.012", "H": "..0.005", "Fe": "..0.08"}),
        ("CP2", {"N": "..0.03", "C": "..0.08", "H": "..0.015", "Fe": "..0.30", "O": "..0.25"}),
        ("Ti-6Al-4V", {"N": "..0.05", "C": "..0.08", "H": "..0.015", "Fe": "..0.40", "O": "..0.20",
                       "Al": "5.5..6.75", "V": "3.5..4.5"}),
    ],
)  # fmt: skip
def test_limits_as_printed(name: str, limits: dict[str, str]):
    """AWS A5.16 on a maker's ERTi-1 sheet, and ASTM B265 grades 2 and 5, each read in a copy."""
    found = published(name)
    assert found is not None
    assert found.limits == limits


def test_a_table_nobody_could_read_is_not_there():
    """ERTi-9 is known from memory only, so the program brings no table for it: a shop types in its own copy."""
    assert published("ERTi-9") is None
