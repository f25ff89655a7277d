"""Complaints in their order."""

from server.sheets.complaint import Complaint, SheetRefused


def test_a_refused_sheet_says_every_complaint_first_line_first() -> None:
    """One line of words for each complaint, in the order a reader mends them."""
    late, early = (Complaint("a.toml", line, "f", "1", "2", "Write 2.") for line in (9, 3))
    refused = SheetRefused([late, early])
    assert refused.complaints == (early, late)
    assert str(refused).splitlines() == [str(early), str(late)]
