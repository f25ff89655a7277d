"""Curves laid out: up is up, limits and moments stand where their values are, and numbers are written for a reader."""

from server.charts.axes import even_axis
from server.charts.curve_sheet import Curve, Size, lay_out

AXES = (even_axis("time [s]", 0.0, 100.0), even_axis("heat [°C]", -20.0, 1000.0))


def test_a_higher_value_stands_higher() -> None:
    """The low left end and the high right end of the axes are the corners of the box."""
    sheet = lay_out("rise", [Curve("a", "plain", [(0.0, -20.0), (100.0, 1000.0)])], AXES)
    left, top, right, bottom = sheet.box
    assert sheet.curves[0].text == f"{left},{bottom} {right},{top}"
    assert 0.0 < left < right < sheet.width
    assert 0.0 < top < bottom < sheet.height


def test_limits_and_moments_stand_where_their_values_are() -> None:
    """A limit lies at its level and a moment at its time; those outside the box are left out, not put on its edge."""
    sheet = lay_out(
        "rise", [], AXES, limits=[("half", 490.0), ("far", 2000.0)], moments=[("half", 50.0), ("late", 101.0)]
    )
    left, top, right, bottom = sheet.box
    assert [(mark.text, mark.at) for mark in sheet.limits] == [("half", (top + bottom) / 2.0)]
    assert [(mark.text, mark.at) for mark in sheet.moments] == [("half", (left + right) / 2.0)]


def test_marks_are_written_for_a_reader() -> None:
    """Thousands are parted, a minus is a minus sign, and no mark has idle digits."""
    axes = even_axis("x", -40.0, 40.0), even_axis("y", 0.0, 6000.0)
    sheet = lay_out("marks", [], axes, size=Size(300.0, 200.0))
    assert "−40" in [mark.text for mark in sheet.across]
    assert "2\u202f000" in [mark.text for mark in sheet.up]
