"""Curves laid out as plain data: lines, limits, marks and numbers, each with its place; a page draws them."""

from collections.abc import Sequence
from dataclasses import dataclass

from server.charts.axes import Axis

Place = tuple[float, float]
_LEFT, _RIGHT, _TOP, _BOTTOM = 74.0, 16.0, 14.0, 52.0


@dataclass(frozen=True, slots=True)
class Curve:
    """A curve to lay out: its name, how it is drawn (`plain`, `marked`, `area`, ...), and its points in axis units."""

    name: str
    look: str
    points: Sequence[Place]


@dataclass(frozen=True, slots=True)
class LaidCurve:
    """A curve on the sheet; `text` is its points as a drawing wants them."""

    name: str
    look: str
    text: str


@dataclass(frozen=True, slots=True)
class Mark:
    """A mark on an axis: its number in words and how far along the sheet it stands."""

    text: str
    at: float


@dataclass(frozen=True, slots=True)
class CurveSheet:
    """Curves laid out, with the box they lie in, the marks along both sides and lines across it."""

    words: str
    width: float
    height: float
    box: tuple[float, float, float, float]
    across: tuple[Mark, ...]
    up: tuple[Mark, ...]
    across_words: str
    up_words: str
    curves: tuple[LaidCurve, ...]
    limits: tuple[Mark, ...] = ()
    moments: tuple[Mark, ...] = ()


@dataclass(frozen=True, slots=True)
class Size:
    """The size of a sheet in its own units; letters are about 14 of them high."""

    width: float = 720.0
    height: float = 400.0


def lay_out(
    words: str,
    curves: Sequence[Curve],
    axes: tuple[Axis, Axis],
    limits: Sequence[tuple[str, float]] = (),
    moments: Sequence[tuple[str, float]] = (),
    size: Size = Size(),
) -> CurveSheet:
    """Lay curves out over two axes, along and up; `limits` are levels to draw across, `moments` places along.

    >>> from server.charts.axes import even_axis
    >>> axes = even_axis("time [s]", 0, 100), even_axis("oxygen [ppm]", 0, 50)
    >>> lay_out("oxygen falls", [Curve("tube", "plain", [(0, 50), (100, 0)])], axes).curves[0].text
    '74.0,14.0 704.0,348.0'
    """
    across, up = axes
    right, bottom = size.width - _RIGHT, size.height - _BOTTOM

    def along(value: float) -> float:
        return round(_LEFT + (right - _LEFT) * across.share(value), 1)

    def high(value: float) -> float:
        return round(bottom - (bottom - _TOP) * up.share(value), 1)

    laid = tuple(
        LaidCurve(each.name, each.look, " ".join(f"{along(x)},{high(y)}" for x, y in each.points)) for each in curves
    )
    return CurveSheet(
        words=words,
        width=size.width,
        height=size.height,
        box=(_LEFT, _TOP, right, bottom),
        across=tuple(Mark(_number(value), along(value)) for value in across.marks),
        up=tuple(Mark(_number(value), high(value)) for value in up.marks),
        across_words=across.words,
        up_words=up.words,
        curves=laid,
        limits=tuple(Mark(text, high(value)) for text, value in limits if 0.0 <= up.share(value) <= 1.0),
        moments=tuple(Mark(text, along(value)) for text, value in moments if 0.0 <= across.share(value) <= 1.0),
    )


def _number(value: float) -> str:
    """Write a mark's number, thousands parted by a thin gap."""
    return f"{value:,.10g}".replace(",", "\u202f").replace("-", "−")
