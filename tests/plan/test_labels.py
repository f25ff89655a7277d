"""Where the names stand."""

import math
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from server.plan.labels import boxes_meet, place_labels
from server.plan.picture_parts import Label, Point, TubeLine

LINE = TubeLine("T", "tube", 10, ((-200.0, 0.0), (200.0, 0.0)))


def test_a_name_alone_stands_right_beside_its_mark() -> None:
    """No leader is needed where there is room."""
    label = place_labels({"A1": ((0, 0), 10)}, (), 12)["A1"]
    assert label.leader is None
    assert math.dist(label.centre, (0, 0)) < 35


def test_a_name_does_not_lie_over_a_tube_when_it_need_not() -> None:
    """Beside a tube there is room above and below it."""
    label = place_labels({"A1": ((0, 0), 10)}, (LINE,), 12)["A1"]
    assert abs(label.centre[1]) > 6 + LINE.width_mm / 6


def test_a_name_that_stands_far_off_has_a_leader() -> None:
    """A ring of marks around one pushes its name outside, tied to its mark by a line."""
    ring = {f"R{n}": ((30 * math.cos(n * math.pi / 5), 30 * math.sin(n * math.pi / 5)), 9.0) for n in range(10)}
    label = place_labels({"A1": ((0, 0), 10), **ring}, (), 12)["A1"]
    assert label.leader is not None
    assert math.dist(label.leader[0], (0, 0)) < math.dist(label.leader[1], (0, 0))


def test_a_leader_does_not_run_over_another_mark() -> None:
    """Of places as near as each other, one whose leader passes between the marks is taken."""
    in_the_way = [*range(12), 12.5, 13.5, 14.5, 15.5]
    spots = [(14 * math.cos(n * math.pi / 8), 14 * math.sin(n * math.pi / 8)) for n in in_the_way]
    label = place_labels({"A1": ((0, 0), 8), **{f"R{n}": (at, 2.0) for n, at in enumerate(spots)}}, (), 12)["A1"]
    assert label.leader is not None
    (x0, y0), (x1, y1) = label.leader
    way = [(x0 + (x1 - x0) * n / 20, y0 + (y1 - y0) * n / 20) for n in range(21)]
    assert all(math.dist(point, at) > 2.0 for point in way for at in spots)


def test_boxes_that_share_a_corner_meet() -> None:
    """Two boxes overlap when they do so both ways, and not when only one way."""
    box = Label("x", (0, 0), 10, 4)
    assert boxes_meet(box, Label("y", (9, 3), 10, 4))
    assert not boxes_meet(box, Label("y", (11, 3), 10, 4))
    assert not boxes_meet(box, Label("y", (9, 5), 10, 4))


spots = st.tuples(st.floats(-300, 300), st.floats(-300, 300))


@settings(deadline=None, max_examples=30)
@given(st.lists(spots, min_size=2, max_size=8))
def test_no_name_lies_over_another_name_or_mark(points: list[Point]) -> None:
    """Up to eight marks anywhere: every name has a place of its own."""
    marks = {f"M{n}": (point, 6.0) for n, point in enumerate(points)}
    labels = place_labels(marks, (LINE,), 9)
    assert list(labels) == list(marks)
    assert not any(boxes_meet(a, b) for a, b in combinations(labels.values(), 2))
    assert not any(_over(label, centre, radius) for label in labels.values() for centre, radius in marks.values())


def _over(label: Label, centre: Point, radius: float) -> bool:
    dx = max(abs(centre[0] - label.centre[0]) - label.width_mm / 2, 0)
    dy = max(abs(centre[1] - label.centre[1]) - label.height_mm / 2, 0)
    return math.hypot(dx, dy) < radius
