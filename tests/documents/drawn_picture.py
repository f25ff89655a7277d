"""Pictures drawn for proofs: a weld bead with its colour, as a camera would write it, with and without what it adds."""

import zlib
from io import BytesIO
from typing import Any

from PIL import Image, ImageDraw

_GPS, _MAKER = 0x8825, 0x010F


def drawn(tint: str = "#d9ac3a", size: tuple[int, int] = (320, 200)) -> Image.Image:
    """A bright tube with a bead across it and a tinted edge."""
    picture = Image.new("RGB", size, "#c9cccd")
    paper = ImageDraw.Draw(picture)
    across, down = size
    paper.rectangle((0, down * 0.3, across * 0.7, down * 0.6), fill=tint)
    for step in range(0, across, 20):
        paper.ellipse((step, down * 0.38, step + 30, down * 0.52), fill="#eef0f0", outline="#737b80")
    return picture


def as_bytes(picture: Image.Image, kind: str = "JPEG", **more: Any) -> bytes:
    """Write it in one of the forms."""
    out = BytesIO()
    picture.save(out, kind, **more)
    return out.getvalue()


def from_a_telephone(picture: Image.Image, turned: int = 1) -> bytes:
    """A JPEG that says where it was taken and by what camera, and how it is to be turned."""
    told = Image.Exif()
    told[_MAKER] = "Invented Camera"
    told[0x0112] = turned
    told.get_ifd(_GPS)[1] = "N"
    told.get_ifd(_GPS)[2] = (55.0, 40.0, 12.0)
    return as_bytes(picture, exif=told, comment=b"taken by P1")


def with_hole(picture: Image.Image) -> bytes:
    """A PNG that is clear in one corner."""
    clear = picture.convert("RGBA")
    clear.paste((0, 0, 0, 0), (0, 0, 20, 20))
    return as_bytes(clear, "PNG")


def bomb() -> bytes:
    """A PNG of a few bytes that claims 300 million pixels."""
    small = as_bytes(Image.new("1", (8, 8)), "PNG")
    head = bytearray(small)
    head[16:24] = (20_000).to_bytes(4) + (15_000).to_bytes(4)
    head[29:33] = zlib.crc32(bytes(head[12:29])).to_bytes(4)
    return bytes(head)
