"""A sheet points at its values."""

import pytest

from server.sheets.complaint import SheetRefused
from server.sheets.sheet import Sheet

TEXT = 'name = "x"\n[[rods]]\nid = "FT-1"\nmm = 0.9\n[[rods]]\nmm = 1.1\n'


def test_a_complaint_names_file_line_field_value_and_what_to_write() -> None:
    """All that is needed to mend the line stands in one sentence."""
    said = Sheet(TEXT, "rods.toml").complain(("rods", 0, "mm"), "1.1 or 1.6", "Write 1.1.")
    assert said[:4] == ("rods.toml", 4, "rods[FT-1].mm", "0.9")
    assert str(said) == "rods.toml, line 4: rods[FT-1].mm is 0.9; expected 1.1 or 1.6. Write 1.1."


def test_an_entry_without_an_id_is_counted_from_one() -> None:
    """The second entry of a list is called the second, not number one."""
    assert Sheet(TEXT, "f").called(("rods", 1, "mm")) == "rods[2].mm"


def test_what_is_missing_is_pointed_at_around_its_place() -> None:
    """A missing field is said to be missing, on the line of the table it belongs in."""
    said = Sheet(TEXT, "f").complain(("rods", 1, "id"), "an id", "Add one.")
    assert (said.line, said.field, said.value) == (5, "rods[2].id", "missing")


def test_an_index_that_the_text_does_not_have_is_passed_over() -> None:
    """A single table read as a list of one is still found by its name."""
    assert Sheet("[limits.volts]\nunit = 'V'\nlow = 8\n", "f").line(("limits", "volts", 0, "low")) == 3


def test_long_values_are_cut_short() -> None:
    """A value of many letters does not drown the complaint."""
    said = Sheet(f'a = "{"x" * 500}"\n', "f").complain(("a",), "less", "Cut it.")
    assert len(said.value) == 80
    assert said.value.endswith("...")


@pytest.mark.parametrize(
    ("text", "line"),
    [("a = 1\nb = \nc = 2\n", 2), ('a = "open\nb = 1\n', 1), ("a = 1\na = 2\n", 2), ("a = [1,\n", 1)],
)
def test_what_is_no_toml_is_refused_with_its_line(text: str, line: int) -> None:
    """Broken TOML says the file, the line and the text that stands there."""
    with pytest.raises(SheetRefused) as refused:
        Sheet(text, "broken.toml")
    (complaint,) = refused.value.complaints
    assert (complaint.file, complaint.line) == ("broken.toml", line)
    assert text.splitlines()[line - 1].strip() in complaint.value
    assert "TOML" in complaint.expected
