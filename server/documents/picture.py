"""Checks by its content what is said to be a picture, takes out what it tells beside itself, and makes it smaller."""

from io import BytesIO
from typing import NamedTuple

from PIL import Image, ImageOps

from server.documents.jpeg_marks import tells_only_the_picture

MOST_BYTES = 12_000_000
"""A picture as a telephone takes it; the bench's tablet sends at most 2 MB."""
_MOST_PIXELS = 50_000_000
_TAKEN = ("JPEG", "PNG", "WEBP")
_QUALITY_KEPT, _QUALITY_SHOWN = 92, 85
_ACROSS, _DOWN = 8, 8


class NotAPicture(ValueError):
    """The bytes are no picture that is taken here; says why and what to send instead."""


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
    shown = _opened(content)
    if shown.format != "JPEG" or not tells_only_the_picture(content):
        content = _as_jpeg(shown, _QUALITY_KEPT)
        shown = _opened(content)
    return Checked(content, shown.width, shown.height, look_of(shown))


def is_picture(content: bytes) -> bool:
    """Tell whether some bytes are a picture that could be shown."""
    try:
        _opened(content)
    except NotAPicture:
        return False
    return True


def smaller(content: bytes, longest_px: int) -> bytes:
    """Set a picture anew as a JPEG whose longer side has at most so many pixels; the same bytes give the same bytes."""
    shown = _opened(content, longest_px)
    shown.thumbnail((longest_px, longest_px), Image.Resampling.LANCZOS)
    return _as_jpeg(shown, _QUALITY_SHOWN)


def look_of(shown: Image.Image) -> str:
    """Give the 64-bit difference hash in hex: of 9 by 8 greys, whether each is lighter than the one to its right."""
    small = shown.convert("L").resize((_ACROSS + 1, _DOWN), Image.Resampling.BOX)
    greys = small.tobytes()
    look = 0
    for row in range(_DOWN):
        for column in range(_ACROSS):
            at = row * (_ACROSS + 1) + column
            look = look << 1 | (greys[at] > greys[at + 1])
    return f"{look:016x}"


def _opened(content: bytes, longest_px: int | None = None) -> Image.Image:
    """Unpack a picture as it is to be seen, turned upright; `format` still says what it came as."""
    try:
        # The size stands in the head, so that nothing is unpacked before it is known to be bearable.
        found = Image.open(BytesIO(content), formats=_TAKEN)
        if found.width * found.height > _MOST_PIXELS:
            raise NotAPicture(_too_many(found.width, found.height))
        if longest_px:
            found.draft("RGB", (longest_px, longest_px))
        came_as = "JPEG" if found.format == "MPO" else found.format
        upright = _on_white(ImageOps.exif_transpose(found))
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as bomb:
        raise NotAPicture(_too_many(0, 0)) from bomb
    except (OSError, SyntaxError, ValueError, EOFError, IndexError, TypeError, OverflowError) as slip:
        if isinstance(slip, NotAPicture):
            raise
        raise NotAPicture(f"the file is {_what(content)}; expected a whole JPEG, PNG or WebP picture") from slip
    upright.format = came_as
    return upright


def _on_white(found: Image.Image) -> Image.Image:
    if found.mode in ("RGBA", "LA", "PA") or "transparency" in found.info:
        clear = found.convert("RGBA")
        ground = Image.new("RGB", clear.size, "white")
        ground.paste(clear, mask=clear.getchannel("A"))
        return ground
    return found.convert("RGB")


def _as_jpeg(shown: Image.Image, quality: int) -> bytes:
    out = BytesIO()
    # From the pixels alone: whatever else the file told stays behind.
    Image.frombytes("RGB", shown.size, shown.tobytes()).save(out, "JPEG", quality=quality, optimize=True)
    return out.getvalue()


def _what(content: bytes) -> str:
    if content[4:8] == b"ftyp" and content[8:12] in (b"heic", b"heix", b"mif1", b"msf1", b"heim", b"heis", b"avif"):
        return "HEIC or AVIF, which is not read here; let the camera save JPEG (“most compatible”)"
    return "empty" if not content else "none that can be read"


def _too_many(width: int, height: int) -> str:
    found = f"{width} x {height}" if width else "far too many"
    return f"the picture has {found} pixels; at most {_MOST_PIXELS // 1_000_000} million are unpacked; send it smaller"
