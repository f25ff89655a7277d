"""Draws the demo's few pictures: a weld bead with its oxide colour, and the crack of the claim; no photographs."""

from io import BytesIO
from pathlib import Path
from typing import NamedTuple

from PIL import Image, ImageDraw, ImageFilter

from demo_data.generator.dice import Dice

SIZE = WIDE, HIGH = 1200, 800
_METAL, _RIPPLE, _CRACK = (176, 180, 182), (208, 211, 212), (28, 32, 35)
_STRAW, _BLUE, _WHITE = (217, 172, 58), (47, 99, 181), (232, 233, 230)


class Drawn(NamedTuple):
    """What one picture shows: how far the seam leans, its tints outwards, and for the inside where the hole is."""

    file: str
    lean: float
    tints: tuple[tuple[int, int, int], ...]
    hole: float | None = None
    crack: bool = False


PICTURES = (
    Drawn("files/w-26-004.jpg", -0.34, (_STRAW,), crack=True),
    Drawn("photos/mt-0041-j06-outside.jpg", 0.18, (_STRAW,), crack=True),
    Drawn("photos/mt-0041-j06-inside.jpg", -0.1, (_WHITE, _BLUE, _STRAW), hole=0.36),
    Drawn("photos/mt-0041-j04-inside.jpg", 0.42, (), hole=0.62),
)


def write_pictures(folder: Path) -> None:
    """Write the pictures into a shop folder; the same every time."""
    for each in PICTURES:
        target = folder / each.file
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(_as_jpeg(draw(each)))


def draw(what: Drawn) -> Image.Image:
    """Draw one picture."""
    dice = Dice(0, "picture", what.file)
    picture = _tube(dice)
    paper = ImageDraw.Draw(picture)
    half = HIGH * 0.06
    for number, tint in reversed(list(enumerate(what.tints, 2))):
        _band(paper, what.lean, half * number * 0.9, tint)
    picture = picture.filter(ImageFilter.GaussianBlur(9))
    paper = ImageDraw.Draw(picture)
    _bead(paper, what.lean, half, dice)
    if what.crack:
        _cracked(paper, what.lean, half, dice)
    picture = picture.filter(ImageFilter.GaussianBlur(1.2))
    return picture if what.hole is None else _through_a_hole(picture, WIDE * what.hole)


def _tube(dice: Dice) -> Image.Image:
    """Brushed metal, lit from one side."""
    picture = Image.new("RGB", SIZE, _METAL)
    paper = ImageDraw.Draw(picture)
    bright = dice.between(0.25, 0.75)
    for row in range(HIGH):
        light = 1.12 - 1.1 * (row / HIGH - bright) ** 2 + dice.between(-0.02, 0.02)
        paper.line((0, row, WIDE, row), fill=_lit(_METAL, light))
    return picture


def _lit(colour: tuple[int, int, int], light: float) -> tuple[int, int, int]:
    red, green, blue = (max(0, min(255, round(each * light))) for each in colour)
    return red, green, blue


def _middle(lean: float, across: float) -> float:
    return HIGH * 0.5 + lean * (across - WIDE * 0.5)


def _band(paper: ImageDraw.ImageDraw, lean: float, half: float, tint: tuple[int, int, int]) -> None:
    left, right = _middle(lean, 0), _middle(lean, WIDE)
    paper.polygon([(0, left - half), (WIDE, right - half), (WIDE, right + half), (0, left + half)], fill=tint)


def _bead(paper: ImageDraw.ImageDraw, lean: float, half: float, dice: Dice) -> None:
    """Ripples laid one over the other, as the pool froze."""
    across = -half
    while across < WIDE + half:
        middle, reach = _middle(lean, across), half * dice.between(0.94, 1.05)
        box = (across - half * 0.9, middle - reach, across + half * 0.9, middle + reach)
        paper.ellipse(box, fill=_lit(_RIPPLE, dice.between(0.94, 1.04)), outline=_lit(_RIPPLE, 0.7), width=2)
        across += half * dice.between(0.26, 0.34)


def _cracked(paper: ImageDraw.ImageDraw, lean: float, half: float, dice: Dice) -> None:
    """A thin dark line along the toe of the bead, not quite straight."""
    steps = range(round(WIDE * 0.42), round(WIDE * 0.66), 14)
    points = [(across, _middle(lean, across) + half * 1.08 + dice.between(-3, 3)) for across in steps]
    paper.line(points, fill=_CRACK, width=5, joint="curve")


def _through_a_hole(picture: Image.Image, at: float) -> Image.Image:
    """What a scope sees: a round field in the dark."""
    ground, field = Image.new("RGB", SIZE, (16, 17, 18)), Image.new("L", SIZE, 0)
    ImageDraw.Draw(field).ellipse((at - HIGH * 0.46, HIGH * 0.04, at + HIGH * 0.46, HIGH * 0.96), fill=255)
    ground.paste(picture, mask=field.filter(ImageFilter.GaussianBlur(6)))
    return ground


def _as_jpeg(picture: Image.Image) -> bytes:
    out = BytesIO()
    picture.save(out, "JPEG", quality=85)
    return out.getvalue()
