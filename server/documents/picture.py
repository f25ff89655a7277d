"""Checks by its content what is said to be a picture, takes out what it tells beside itself, and makes it smaller."""

from typing import NamedTuple

from server.documents.jpeg_marks import tells_only_the_picture
from server.documents.not_a_picture import NotAPicture

MOST_BYTES = 12_000_000
"""A picture as a telephone takes it; the bench's tablet sends at most 2 MB."""
_QUALITY_KEPT, _QUALITY_SHOWN = 92, 85


class Checked(NamedTuple):
    """A picture that may be kept: its clean bytes, its size, and its look for finding near copies."""

    content: bytes
    width_px: int
    height_px: int
    looks_like: str


def check_picture(content: bytes) -> Checked:
    """Give the bytes to keep: the very same if they are a JPEG that tells the picture alone, else set anew without it.

    Raises `NotAPicture` for anything else, and for a picture that would take too much room once unpacked.
    """
    # Only who has a picture pays for loading the library.
    from server.documents.pixels import as_jpeg, look_of, opened

    shown = opened(content)
    if shown.format != "JPEG" or not tells_only_the_picture(content):
        content = as_jpeg(shown, _QUALITY_KEPT)
        shown = opened(content)
    return Checked(content, shown.width, shown.height, look_of(shown))


def is_picture(content: bytes) -> bool:
    """Tell whether some bytes are a picture that could be shown."""
    from server.documents.pixels import opened

    try:
        opened(content)
    except NotAPicture:
        return False
    return True


def smaller(content: bytes, longest_px: int) -> bytes:
    """Set a picture anew as a JPEG whose longer side has at most so many pixels; the same bytes give the same bytes."""
    from server.documents.pixels import as_jpeg, fitted

    return as_jpeg(fitted(content, longest_px), _QUALITY_SHOWN)
