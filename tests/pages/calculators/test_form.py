"""What may be written into a calculator: any unit a shop uses, and an error that names everything when it cannot be."""

import pytest

from server.pages.calculators.form import Choice, read_form, with_problem
from server.pages.calculators.quantity import Field
from server.physics.errors import UnusableInput

FLOW = Field("flow_l_per_min", "Purge flow", "L/min", ("L/min", "cfh"), "10", "At the cup.")
WALL = Field("wall_mm", "Wall", "mm", ("mm", "in"), needed=False)
ARC = Choice("arc", "The arc", (("steady", "steady"), ("pulsed", "pulsed")))
FIELDS = (FLOW, WALL)


def number(written: str, unit: str = "L/min") -> float | None:
    return read_form(FIELDS, (), {"flow_l_per_min": written, "flow_l_per_min_unit": unit}).at("flow_l_per_min").number


@pytest.mark.parametrize(
    ("written", "unit", "litres"),
    [
        ("10", "L/min", 10.0),
        ("20", "cfh", 9.438949),
        ("20 cfh", "L/min", 9.438949),
        ("500 mL/min", "cfh", 0.5),
        (" 7.5 ", "L/min", 7.5),
        ("1/2", "cfh", 0.2359737),
        ("1e1", "L/min", 10.0),
    ],
)
def test_a_unit_written_goes_before_the_one_chosen(written: str, unit: str, litres: float) -> None:
    """A bare number takes the unit beside it; a number with its unit keeps its own."""
    assert number(written, unit) == pytest.approx(litres, rel=1e-6)


@pytest.mark.parametrize(
    ("written", "found", "expected", "remedy"),
    [
        ("1,5", "1,5 L/min", "a number and a unit", "decimal point"),
        ("ten", "ten", "a number and a unit", "decimal point"),
        ("10 mm", "10 mm", "a quantity in L/min", "measures the same thing"),
        ("10 wobbles", "10 wobbles", "a unit that is known", "in full"),
        ("", "nothing written", "such as 10 L/min", "Write a number"),
        ("9" * 70, "9", "at most 60 letters", "shorter"),
    ],
)
def test_what_cannot_be_read_is_told_whole(written: str, found: str, expected: str, remedy: str) -> None:
    """The problem names the field in shop words, what was found, is expected and is to be done; the text stays."""
    form = read_form(FIELDS, (), {"flow_l_per_min": written})
    (problem,) = form.problems
    assert (problem.field, problem.words) == ("flow_l_per_min", "Purge flow")
    assert problem.found.startswith(found)
    assert expected in problem.expected
    assert remedy in problem.remedy
    assert form.at("flow_l_per_min").written == written
    assert str(problem).startswith(f"Purge flow: {problem.found}. Expected: ")


def test_all_problems_are_told_at_once() -> None:
    """Two fields wrong are two problems, in the order of the form."""
    form = read_form(FIELDS, (), {"flow_l_per_min": "x", "wall_mm": "y"})
    assert [problem.field for problem in form.problems] == ["flow_l_per_min", "wall_mm"]


def test_an_address_without_words_stands_as_at_first() -> None:
    """What the address does not name has its first value; a field that may stay empty has no number and no problem."""
    form = read_form(FIELDS, (ARC,), {})
    assert (form.number("flow_l_per_min"), form.maybe("wall_mm"), form.problems) == (10.0, None, ())
    assert form.chosen == {"arc": "steady"}
    assert read_form(FIELDS, (ARC,), {"arc": "welded"}).chosen == {"arc": "steady"}


def test_an_unused_field_is_kept_but_not_judged() -> None:
    """What is written in a field that this question does not use stays there and is no problem."""
    form = read_form(FIELDS, (), {"flow_l_per_min": "x"}, frozenset({"flow_l_per_min"}))
    assert (form.problems, form.at("flow_l_per_min").written) == ((), "x")


def test_what_a_formula_refuses_stands_at_its_field() -> None:
    """A formula's own refusal is put to the field it came from, with what was written and the unit of its range."""
    form = read_form(FIELDS, (), {"wall_mm": "0", "wall_mm_unit": "in"})
    error = UnusableInput("thickness", 0.0, "a number from 0.1 to 50", "Measure it.")
    problem = with_problem(form, error, {"thickness": "wall_mm"}).problem_at("wall_mm")
    assert problem is not None
    assert (problem.found, problem.expected) == ("0 in", "a number from 0.1 to 50 mm")
