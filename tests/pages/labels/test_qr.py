"""QR codes as drawings in the page."""

import pytest

from server.pages.labels.qr import qr_drawing


@pytest.mark.parametrize("text", ["MT-0401", "MT-0401/J06", "FT-0901"])
def test_a_code_is_a_drawing_without_style_or_script(text: str) -> None:
    """The code is one drawing with a title, and nothing in it that the page's own policy would refuse."""
    drawing = str(qr_drawing(text, f"Code of {text}"))
    assert drawing.startswith("<svg")
    assert f"<title>Code of {text}</title>" in drawing
    assert "style=" not in drawing
    assert "<script" not in drawing


def test_a_title_cannot_break_out_of_the_drawing() -> None:
    """A name with a tag in it stays a name."""
    assert "<b>" not in str(qr_drawing("x-1", "<b>bold</b>"))
