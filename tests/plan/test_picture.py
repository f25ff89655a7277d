"""The side view of a design that exists only in these proofs."""

import math
from itertools import combinations

from server.plan.labels import boxes_meet
from server.plan.picture import side_view
from tests.plan.cart import cart

VIEW = side_view(cart(), "S")


def test_every_joint_has_a_mark_with_its_quarters_and_name() -> None:
    """Five seams in quarters and one fitting as a ring, each under its own name."""
    assert [mark.joint for mark in VIEW.marks] == ["A1", "A2", "A3", "A4", "A5", "B1"]
    assert [len(mark.arcs) for mark in VIEW.marks] == [4, 4, 4, 4, 4, 1]
    assert all(mark.label.text == mark.joint for mark in VIEW.marks)
    assert VIEW.marks[-1].radius_mm < VIEW.marks[0].radius_mm
    assert not VIEW.marks[-1].structural


def test_all_of_it_lies_inside_the_picture() -> None:
    """Whoever draws it from low to high cuts nothing off."""
    points = [point for line in VIEW.lines for point in line.points]
    points += [point for mark in VIEW.marks for arc in mark.arcs for point in arc.points]
    points += [mark.label.centre for mark in VIEW.marks]
    assert all(VIEW.low[axis] <= point[axis] <= VIEW.high[axis] for point in points for axis in (0, 1))


def test_names_do_not_overlap() -> None:
    """Every two labels have boxes of their own."""
    assert not any(boxes_meet(a.label, b.label) for a, b in combinations(VIEW.marks, 2))


def test_a_mark_moved_from_its_seam_is_tied_to_it() -> None:
    """The eye would stand where the brace meets the post: it moves up the post and shows where it belongs."""
    assert [mark.joint for mark in VIEW.marks if mark.tie] == ["B1"]
    assert all(mark.tie[1] == mark.centre for mark in VIEW.marks if mark.tie)
    assert all(math.dist(*mark.tie) > mark.radius_mm for mark in VIEW.marks if mark.tie)


def test_sizes_are_drawn_apart_and_the_same_twice() -> None:
    """The larger size reaches higher, and drawing twice gives the same picture."""
    assert side_view(cart(), "L").high[1] > VIEW.high[1]
    assert side_view(cart(), "S") == VIEW
