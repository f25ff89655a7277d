"""Stored rows and discrepancies: how they are said."""

from server.evidence.stored import Discrepancy, StoredRow


def test_a_row_is_named_by_position_and_id():
    """A sentence about an entry can begin with the row."""
    assert str(StoredRow(17, "id-17", b"{}", bytes(32))) == "entry at position 17, id id-17"


def test_a_discrepancy_is_its_sentence():
    """Printing a discrepancy gives the sentence."""
    assert str(Discrepancy("bytes differ", 17, "entry at position 17: bytes differ")).startswith("entry at position 17")
