"""The two tables beside the calculators: what they say, and what they refuse in words."""

import pytest

from server.pages.calculators.eyes_and_air import eyes_and_air_page
from server.pages.calculators.imperfections import imperfections_page


@pytest.mark.parametrize(
    ("found_mm", "doubt_mm", "word"),
    [("0.05", "0.01", "within"), ("0.085", "0.01", "marginal"), ("0.095", "0.01", "outside"), ("0.05", "", "unknown")],
)
def test_a_size_close_to_its_limit(found_mm: str, doubt_mm: str, word: str) -> None:
    """Level C allows 0.09 mm on a 0.9 mm wall: the gauge's doubt makes a size marginal, and unknown when not told."""
    asked = {"wall_mm": "0.9", "level": "C", "kind": "undercut", "found_mm": found_mm, "doubt_mm": doubt_mm}
    held = imperfections_page(asked).held
    assert held is not None
    assert held.word == word


def test_nothing_measured_nothing_said() -> None:
    """The table stands without a measured one; none found is within where none is allowed."""
    assert imperfections_page({}).held is None
    held = imperfections_page({"kind": "crack", "found_mm": "0"}).held
    assert held is not None
    assert held.word == "within"


@pytest.mark.parametrize(
    ("asked", "field"),
    [({"wall_mm": "0.4"}, "wall_mm"), ({"bead_mm": "0"}, "bead_mm"), ({"found_mm": "-1"}, "found_mm"),
     ({"butt_mm": "0.1"}, "butt_mm"), ({"found_mm": "0.1", "doubt_mm": "-1"}, "doubt_mm")],
)  # fmt: skip
def test_what_the_table_refuses(asked: dict[str, str], field: str) -> None:
    """A wall the standard says nothing of and a size that cannot be are named at their field."""
    assert [each.field for each in imperfections_page(asked).form.problems] == [field]


@pytest.mark.parametrize(
    ("asked", "fan"),
    [({}, None), ({"room_m3": "100"}, True), ({"room_m3": "400"}, None), ({"room_m3": "400", "ceiling_m": "6"}, False),
     ({"ceiling_m": "10 ft"}, True)],
)  # fmt: skip
def test_a_room_known_by_half(asked: dict[str, str], fan: bool | None) -> None:
    """One measure is enough to ask for a fan and not enough to do without."""
    result = eyes_and_air_page(asked).result
    assert result is not None
    assert result.needs_fresh_air is fan


@pytest.mark.parametrize(
    ("asked", "field"),
    [({"current_a": "0"}, "current_a"), ({"oxygen_percent": "120"}, "oxygen_percent"), ({"room_m3": "-3"}, "room_m3")],
)
def test_what_eyes_and_air_refuse(asked: dict[str, str], field: str) -> None:
    """What cannot be is named at its field."""
    assert [each.field for each in eyes_and_air_page(asked).form.problems] == [field]
