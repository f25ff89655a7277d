"""Where each joint's name stands: near its mark, over no mark and no other name, over as few tubes as can be."""

import math
from collections.abc import Callable, Iterator, Mapping
from functools import partial
from itertools import pairwise

from server.plan.picture_parts import Label, Point, TubeLine

Disc = tuple[Point, float]

_WIDE = 0.62
_WAYS = 16
_REACHES = (0.0, 0.5, 1.1, 1.8, 2.6, 3.5, 4.5, 6.0, 8.0)
_FORBIDDEN = 1e6
_AIR = 1.15
"""Lines of letters keep a little air between them."""


def place_labels(marks: Mapping[str, Disc], lines: tuple[TubeLine, ...], letter_mm: float) -> dict[str, Label]:
    """A label for each mark (centre, radius), the most crowded marks first."""
    discs = list(marks.values())
    crowded = sorted(marks, key=lambda name: _neighbours(marks[name][0], discs, 8 * letter_mm), reverse=True)
    placed: dict[str, Label] = {}
    for name in crowded:
        choices = _choices(name, *marks[name], letter_mm)
        others = [disc for other, disc in marks.items() if other != name]
        placed[name] = _cheapest(choices, partial(_cost, own=marks[name], others=others, placed=placed, lines=lines))
    return {name: placed[name] for name in marks}


def _cheapest(choices: Iterator[tuple[Label, float]], cost: Callable[[Label], float]) -> Label:
    best, least = None, math.inf
    for label, reach in choices:
        if best and reach >= least:
            return best
        if (total := reach + cost(label)) < least:
            best, least = label, total
    if best is None:
        raise AssertionError("there is always a place for a label, if only a bad one")
    return best


def _neighbours(centre: Point, discs: list[Disc], within_mm: float) -> int:
    return sum(math.dist(centre, other) < within_mm for other, _ in discs)


def _choices(text: str, centre: Point, radius: float, letter_mm: float) -> Iterator[tuple[Label, float]]:
    half_wide, half_high = len(text) * letter_mm * _WIDE / 2, letter_mm / 2
    for reach in _REACHES:
        for way in range(_WAYS):
            angle = 2 * math.pi * way / _WAYS
            ux, uy = math.cos(angle), math.sin(angle)
            to_edge = min(half_wide / max(abs(ux), 1e-9), half_high / max(abs(uy), 1e-9))
            out = radius * 1.2 + reach * letter_mm + to_edge
            at = (centre[0] + ux * out, centre[1] + uy * out)
            leader = (
                None if reach < 1 else ((centre[0] + ux * radius, centre[1] + uy * radius), _back(at, ux, uy, to_edge))
            )
            yield Label(text, at, 2 * half_wide, 2 * half_high, leader), reach


def _back(at: Point, ux: float, uy: float, by_mm: float) -> Point:
    return at[0] - ux * by_mm, at[1] - uy * by_mm


def _cost(
    label: Label, own: Disc, others: list[Disc], placed: Mapping[str, Label], lines: tuple[TubeLine, ...]
) -> float:
    if any(_box_meets_disc(label, disc) for disc in (own, *others)) or any(
        boxes_meet(label, p) for p in placed.values()
    ):
        return _FORBIDDEN
    crossed = sum(_box_meets_line(label, line) for line in lines)
    leaders = sum(_leader_in_the_way(label, other) for other in placed.values())
    if label.leader:
        leaders += sum(_near(centre, label.leader, radius) for centre, radius in others)
    return crossed * 1.5 + leaders * 3.0


def boxes_meet(a: Label, b: Label) -> bool:
    """Whether two labels' boxes overlap."""
    wide, high = (a.width_mm + b.width_mm) / 2, (a.height_mm + b.height_mm) / 2 * _AIR
    return abs(a.centre[0] - b.centre[0]) < wide and abs(a.centre[1] - b.centre[1]) < high


def _box_meets_disc(label: Label, disc: Disc) -> bool:
    (x, y), radius = disc
    over = (
        max(abs(x - label.centre[0]) - label.width_mm / 2, 0.0),
        max(abs(y - label.centre[1]) - label.height_mm / 2, 0.0),
    )
    return math.hypot(*over) < radius * 1.1


def _box_meets_line(label: Label, line: TubeLine) -> bool:
    reach = label.height_mm / 2 + line.width_mm / 6
    middle, half = label.centre, label.width_mm / 3
    spots = ((middle[0] - half, middle[1]), middle, (middle[0] + half, middle[1]))
    return any(_near(spot, pair, reach) for spot in spots for pair in pairwise(line.points))


def _leader_in_the_way(label: Label, other: Label) -> bool:
    ours = label.leader and _near(other.centre, label.leader, other.height_mm / 2)
    theirs = other.leader and _near(label.centre, other.leader, label.height_mm / 2)
    return bool(ours or theirs)


def _near(at: Point, pair: tuple[Point, Point], within_mm: float) -> bool:
    (ax, ay), (bx, by) = pair
    length = (bx - ax) ** 2 + (by - ay) ** 2
    share = 0.0 if length == 0 else max(0.0, min(1.0, ((at[0] - ax) * (bx - ax) + (at[1] - ay) * (by - ay)) / length))
    return math.dist(at, (ax + share * (bx - ax), ay + share * (by - ay))) < within_mm
