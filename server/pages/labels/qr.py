"""A QR code as a drawing in the page; black on white, readable from a scuffed print."""

import segno
from markupsafe import Markup


def qr_drawing(text: str, title: str) -> Markup:
    """Draw a code that holds plain text, with a name for who cannot see it."""
    drawing = segno.make(text, error="q", micro=False).svg_inline(border=2, title=title, omitsize=True)
    # Drawn by the library from text of our own registers; it escapes the title itself.
    return Markup(drawing)  # noqa: S704
