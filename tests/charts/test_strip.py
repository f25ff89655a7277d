"""A strip puts every reading where it belongs and says what was usual without this frame's own."""

from server.charts.strip import LEFT, RIGHT, WIDTH, Dot, lay_strip


def test_readings_lie_in_their_order_inside_the_strip():
    """The least lies at the left end, the greatest at the right one, and own readings stand apart from the others."""
    laid = lay_strip("oxygen", [Dot(8, "a"), Dot(40, "b"), Dot(12, "c")], [Dot(56, "own")], 3)
    assert [each.dot.words for each in sorted(laid.others)] == ["a", "c", "b"]
    assert (laid.others[0].at, laid.own[0].at) == (LEFT, WIDTH - RIGHT)


def test_the_middle_is_of_the_others_only():
    """What was usual is the median of the sister frames; this frame's own reading does not move it."""
    others = [Dot(value, "") for value in (6, 8, 40)]
    assert lay_strip("oxygen", others, [Dot(5000, "own")], 3).middle == 8
    assert lay_strip("oxygen", [], [Dot(5, "own")], 0).middle is None


def test_equal_readings_still_have_a_place():
    """Readings that are all alike do not break the axis."""
    assert lay_strip("oxygen", [Dot(7, "")] * 3, [Dot(7, "")], 3).own[0].at == LEFT
