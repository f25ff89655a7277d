"""Complaints in their order."""

from server.sheets.complaint import Complaint, SheetRefused


def test_a_refused_sheet_says_every_complaint_first_line_first() -> None:
    """One line of words for each complaint, in the order a reader mends them."""
    late, early = (Complaint("a.toml", line, "f", "1", "2", "Write 2.") for line in (9, 3))
    refused = SheetRefused([late, early])
    assert refused.complaints == (early, late)
    assert str(refused).splitlines() == [str(early), str(late)]


def test_a_file_as_a_whole_stands_on_no_line() -> None:
    """What is wrong with a file that is missing names the file alone; anything else names its line."""
    whole, third = (Complaint("a.toml", line, "the file", "missing", "a sheet", "Make one.") for line in (0, 3))
    assert str(whole) == "a.toml: the file is missing; expected a sheet. Make one."
    assert str(third).startswith("a.toml, line 3: ")
