"""A laid-out track keeps order and scale, and marks exactly the points that lie beyond a limit."""

from server.charts.control_sheet import HEIGHT, lay_track
from server.statistics.chart import Track
from server.statistics.individuals import individuals_chart


def test_higher_values_lie_higher_and_later_ones_further_right():
    """Time runs to the right and the value upwards."""
    sheet = lay_track(individuals_chart([12, 11, 13, 12, 12, 19], baseline=5).tracks[0])
    assert [each.x for each in sheet.points] == sorted(each.x for each in sheet.points)
    assert min(sheet.points, key=lambda each: each.y).place == 5
    assert all(0 <= each.y <= HEIGHT for each in sheet.points)


def test_what_lies_beyond_is_marked():
    """The point beyond the upper limit is marked, and no other."""
    sheet = lay_track(individuals_chart([12, 11, 13, 12, 12, 19], baseline=5).tracks[0])
    assert [each.place for each in sheet.points if each.beyond] == [5]


def test_a_missing_point_and_a_missing_limit_leave_a_gap():
    """The first moving range does not exist and a chart without lower limit draws none."""
    sheet = lay_track(Track("moving range", (None, 2.0, 3.0), 2.5, (None,) * 3, (9.0,) * 3))
    assert [each.place for each in sheet.points] == [1, 2]
    assert [line.words for line in sheet.lines] == ["centre 2.5", "upper limit 9"]
