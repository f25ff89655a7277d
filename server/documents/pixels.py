"""Unpacks pictures with the library that can, turned upright, and packs their pixels anew with nothing beside them."""

from io import BytesIO

from PIL import Image, ImageOps

from server.documents.not_a_picture import NotAPicture

_MOST_PIXELS = 50_000_000
_TAKEN = ("JPEG", "PNG", "WEBP")
_ACROSS, _DOWN = 8, 8


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


def opened(content: bytes, longest_px: int | None = None) -> Image.Image:
    """Unpack a picture as it is to be seen, upright; `format` says what it came as. Raises `NotAPicture`."""
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


def fitted(content: bytes, longest_px: int) -> Image.Image:
    """Unpack a picture no larger than need be, its longer side of at most so many pixels."""
    shown = opened(content, longest_px)
    shown.thumbnail((longest_px, longest_px), Image.Resampling.LANCZOS)
    return shown


def _on_white(found: Image.Image) -> Image.Image:
    if found.mode in ("RGBA", "LA", "PA") or "transparency" in found.info:
        clear = found.convert("RGBA")
        ground = Image.new("RGB", clear.size, "white")
        ground.paste(clear, mask=clear.getchannel("A"))
        return ground
    return found.convert("RGB")


def as_jpeg(shown: Image.Image, quality: int) -> bytes:
    """Pack a picture as JPEG, from its pixels alone."""
    out = BytesIO()
    # Whatever else the file told stays behind.
    Image.frombytes("RGB", shown.size, shown.tobytes()).save(out, "JPEG", quality=quality, optimize=True)
    return out.getvalue()


def _what(content: bytes) -> str:
    if content[4:8] == b"ftyp" and content[8:12] in (b"heic", b"heix", b"mif1", b"msf1", b"heim", b"heis", b"avif"):
        return "HEIC or AVIF, which is not read here; let the camera save JPEG (“most compatible”)"
    return "empty" if not content else "none that can be read"


def _too_many(width: int, height: int) -> str:
    found = f"{width} x {height}" if width else "far too many"
    return f"the picture has {found} pixels; at most {_MOST_PIXELS // 1_000_000} million are unpacked; send it smaller"
