"""What a side view is made of, as plain data: lines, joint marks in four quarters, labels; mm, x forward and y up."""

from typing import NamedTuple

Point = tuple[float, float]


class TubeLine(NamedTuple):
    """A tube, part or plate as a line of its own width [mm]; a closed one is an outline, a cut end shows its circle."""

    member: str
    title: str
    width_mm: float
    points: tuple[Point, ...]
    closed: bool = False


class QuarterArc(NamedTuple):
    """A quarter of a joint's mark, from one end to the other, clockwise as the welder sees it."""

    quarter: str
    points: tuple[Point, ...]


class Label(NamedTuple):
    """The joint's name in a box of its own; the leader runs from the mark to the box when they stand apart."""

    text: str
    centre: Point
    width_mm: float
    height_mm: float
    leader: tuple[Point, Point] | None = None


class JointMark(NamedTuple):
    """A joint as a gap in the line: a disc to leave blank, the arcs that close it, the label beside it.

    Where there was no room at the seam itself, `tie` runs from the seam to the mark.
    """

    joint: str
    title: str
    centre: Point
    radius_mm: float
    arcs: tuple[QuarterArc, ...]
    label: Label
    structural: bool = True
    tie: tuple[Point, Point] | None = None


class Picture(NamedTuple):
    """A frame from its right side; what is drawn first lies behind. All of it lies between `low` and `high`."""

    design: str
    size: str
    lines: tuple[TubeLine, ...]
    marks: tuple[JointMark, ...]
    low: Point
    high: Point
