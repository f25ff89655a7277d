"""Pictures are told by their content, kept without what they say beside themselves, and found again by their look."""

from io import BytesIO
from typing import Any

import pytest
from PIL import Image, ImageEnhance

from server.documents.jpeg_marks import tells_only_the_picture
from server.documents.not_a_picture import NotAPicture
from server.documents.picture import check_picture, is_picture, smaller
from server.documents.pixels import look_of
from tests.documents.drawn_picture import as_bytes, bomb, drawn, from_a_telephone, with_hole


def test_a_plain_jpeg_is_kept_byte_for_byte():
    """What tells the picture alone is kept as it came, so that its SHA-256 is the one its entry names."""
    plain = as_bytes(drawn())
    checked = check_picture(plain)
    assert checked.content == plain
    assert (checked.width_px, checked.height_px) == (320, 200)


def test_place_and_camera_are_taken_out():
    """A telephone's JPEG loses place, camera and comment, and keeps its pixels to within what JPEG loses."""
    told = from_a_telephone(drawn())
    assert b"Invented Camera" in told
    kept = check_picture(told).content
    assert tells_only_the_picture(kept)
    assert not tells_only_the_picture(told)
    for word in (b"Invented", b"Exif", b"taken by P1"):
        assert word not in kept
    with Image.open(BytesIO(kept)) as opened:
        assert not opened.getexif()


def test_it_is_turned_upright():
    """A picture that says it lies on its side is kept standing."""
    checked = check_picture(from_a_telephone(drawn(), turned=6))
    assert (checked.width_px, checked.height_px) == (200, 320)


@pytest.mark.parametrize("kind", ["PNG", "WEBP"])
def test_other_forms_become_jpeg(kind: str):
    """PNG and WebP are taken by their content and kept as JPEG."""
    checked = check_picture(as_bytes(drawn(), kind))
    assert tells_only_the_picture(checked.content)


def test_what_is_clear_becomes_white():
    """A hole in a PNG shows the paper, not black."""
    with Image.open(BytesIO(check_picture(with_hole(drawn())).content)) as opened:
        assert min(opened.getpixel((5, 5))) > 240  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "empty"),
        (b"hello", "none that can be read"),
        (b"GIF89a" + b"\0" * 40, "none that can be read"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "none that can be read"),
        (b"%PDF-1.7\n%%EOF", "none that can be read"),
        (b"\0\0\0\x18ftypheic" + b"\0" * 40, "HEIC"),
        (as_bytes(drawn())[:900], "whole JPEG"),
        (b"\xff\xd8\xff\xe0", "whole JPEG"),
        (bomb(), "million are unpacked"),
    ],
)
def test_what_is_no_picture_is_refused(content: bytes, said: str):
    """Other files, half files, pictures of kinds nobody needs here, and a few bytes that would unpack to gigabytes."""
    with pytest.raises(NotAPicture, match=said):
        check_picture(content)
    assert not is_picture(content)


def test_too_many_pixels_are_refused_unseen():
    """Even below what the library itself would refuse, and before anything is unpacked."""
    many = as_bytes(Image.new("1", (8000, 7000)), "PNG")
    assert len(many) < 20_000
    with pytest.raises(NotAPicture, match="8000 x 7000"):
        check_picture(many)


def test_something_behind_the_picture_is_taken_off():
    """A file that is a picture and a page of script at once is kept as the picture alone."""
    double = as_bytes(drawn()) + b"<script>alert(1)</script>"
    assert not tells_only_the_picture(double)
    assert b"script" not in check_picture(double).content


@pytest.mark.parametrize(
    "more", [{"progressive": True}, {"restart_marker_rows": 1}, {"quality": 100, "subsampling": 0}]
)
def test_every_kind_of_plain_jpeg_is_plain(more: dict[str, Any]):
    """Progressive, with restart marks, with every colour: nothing but the picture is in them."""
    assert tells_only_the_picture(as_bytes(drawn(), **more))


def test_a_copy_saved_again_has_nearly_the_same_look():
    """A copy saved smaller, or brighter, differs in few of 64 bits; another seam in many."""
    look = int(look_of(drawn()), 16)
    again = int(look_of(Image.open(BytesIO(smaller(as_bytes(drawn(), quality=40), 160)))), 16)
    brighter = int(look_of(ImageEnhance.Brightness(drawn()).enhance(1.1)), 16)
    other = int(look_of(drawn().rotate(90, expand=True)), 16)
    assert (look ^ again).bit_count() <= 3
    assert (look ^ brighter).bit_count() <= 3
    assert (look ^ other).bit_count() > 10


def test_the_look_is_what_is_written_of_it():
    """Greys falling from left to right set every bit, rising ones none."""
    falling = Image.linear_gradient("L").rotate(90).transpose(Image.Transpose.FLIP_LEFT_RIGHT)
    looks = {look_of(falling), look_of(falling.transpose(Image.Transpose.FLIP_LEFT_RIGHT))}
    assert looks == {"ffffffffffffffff", "0000000000000000"}


def test_smaller_is_smaller_and_the_same_each_time():
    """The longer side fits, nothing beside the picture is in it, and the same bytes give the same bytes."""
    told = from_a_telephone(drawn(size=(1200, 900)), turned=6)
    shown = smaller(told, 480)
    with Image.open(BytesIO(shown)) as opened:
        assert opened.size == (360, 480)
    assert tells_only_the_picture(shown)
    assert smaller(told, 480) == shown
