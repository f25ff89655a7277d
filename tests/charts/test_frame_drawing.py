"""The dossier's side view names every joint; what is open is filled, its own joint has a second ring."""

from typing import Any

from server.charts.frame_drawing import frame_drawing
from server.plan.picture_parts import JointMark, Label, Picture, TubeLine


def a_view() -> Picture:
    marks = (
        JointMark(name, "seam", (at, 10.0), 6.0, (), Label(name, (at, 30.0), 20.0, 10.0))
        for name, at in (("A", 0.0), ("B&C", 100.0))
    )
    tube = TubeLine("T", "tube", 30.0, ((0.0, 0.0), (100.0, 0.0)))
    return Picture("HERON", "54", (tube,), tuple(marks), (0.0, 0.0), (100.0, 40.0))


def told(open_on_a: int, about: str = "") -> dict[str, Any]:
    return {"joint": about, "joints": [{"joint": "A", "in_short": {"open": open_on_a}}]}


def test_what_is_open_is_filled_and_every_joint_is_named():
    """One filled ring where one joint has something open, none where nothing is; a name is escaped."""
    waits, clear = (frame_drawing(a_view(), told(count))["frame"] for count in (1, 0))
    assert (waits.count('fill="#000"'), clear.count('fill="#000"')) == (1, 0)
    assert ">A</text>" in clear
    assert ">B&amp;C</text>" in clear


def test_the_joint_it_is_about_has_a_second_ring():
    """A joint's own dossier rings that joint, a frame's dossier none."""
    assert frame_drawing(a_view(), told(0, "A"))["frame"].count("<circle") == 3
    assert frame_drawing(a_view(), told(0))["frame"].count("<circle") == 2


def test_without_a_design_there_is_no_drawing():
    """A frame whose design the record does not know has no side view."""
    assert frame_drawing(None, told(0)) == {}
