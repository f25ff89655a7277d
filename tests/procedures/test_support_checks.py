"""Limits, walls and diameters held against the qualification records."""

import pytest

from tests.procedures.ladder import LADDER, ladder, refused


@pytest.mark.parametrize(
    ("changes", "line", "field", "value"),
    [
        ({"low = 60, high = 90": "low = 60, high = 91"}, 18, "limits.peak_current", "60 to 91 A"),
        ({"low = 60, high = 90": "low = 54, high = 90"}, 18, "limits.peak_current", "54 to 90 A"),
        ({"low = 60, high = 90": "low = 60"}, 18, "limits.peak_current", "at least 60 A"),
        ({"high = 0.003": "high = 0.0031"}, 14, "limits.oxygen", "at most 31 ppm"),
        ({"low = 15, high = 20": "low = 14, high = 20"}, 15, "limits.torch_flow", "6.60726 to 9.43895 L/min"),
        ({"low = 0.9, high = 1.2": "low = 0.9, high = 1.7"}, 10, "material.thickness", "0.9 to 1.7 mm"),
        ({'low = 1, unit = "in"': 'low = 0.5, unit = "in"'}, 11, "material.diameter", "at least 12.7 mm"),
    ],
)
def test_a_limit_outside_its_record_is_refused(changes: dict[str, str], line: int, field: str, value: str) -> None:
    """In whatever unit it is written, a limit beyond the qualified range is refused, and the range is said."""
    (found,) = refused(changes)
    assert (found.line, found.field, found.value) == (line, field, value)
    assert "QR-1 qualifies" in found.expected
    assert "[[supports]]" in found.instead


def test_a_limit_on_the_edge_of_its_record_is_taken() -> None:
    """Exactly what was qualified may be used."""
    assert ladder(**{"low = 60, high = 90": "low = 55, high = 90"}).limits


def test_a_second_record_widens_the_range() -> None:
    """One record that holds the limit is enough."""
    more = '[[supports]]\nid = "QR-2"\ndated = 2031-01-20\nstandard = "own"\n'
    more += '[supports.ranges]\noxygen = { high = 100, unit = "ppm" }\n[[cautions]]'
    assert ladder(**{"[[cautions]]": more, "high = 0.003": "high = 0.009"}).supports[1].id == "QR-2"


def test_a_list_of_what_is_allowed_is_no_range() -> None:
    """Rods named one by one are not measured against a record's range of rods."""
    more = '[supports.ranges]\nrod = { low = 0.8, high = 1.2, unit = "mm" }'
    assert ladder(**{"[supports.ranges]": more}).supports[0].ranges["rod"] == (0.8, 1.2)


def test_a_limit_no_record_speaks_of_is_the_shops_own() -> None:
    """Interpass stands in no record here and is taken."""
    assert "interpass = {" not in LADDER[LADDER.index("[supports.ranges]") :]
    assert any(limit.name == "interpass" for limit in ladder().limits)


@pytest.mark.parametrize(
    ("changes", "line", "field"),
    [
        ({"oxygen = { high = 30,": "oxigen = { high = 30,"}, 31, "supports[QR-1].ranges.oxigen"),
        ({'high = 30, unit = "ppm"': 'high = 30, unit = "bar"'}, 31, "supports[QR-1].ranges.oxygen.unit"),
        ({'high = 30, unit = "ppm"': 'unit = "ppm"'}, 31, "supports[QR-1].ranges.oxygen"),
        ({"dated = 2031-01-15": "dated = 2031-02-04"}, 26, "supports[QR-1].dated"),
        (
            {'low = 0.8, high = 1.6, unit = "mm"': 'low = 0.8, high = 1.6, unit = "A"'},
            28,
            "supports[QR-1].thickness.unit",
        ),
        ({"low = 0.9, high = 1.2": "low = 0.9"}, 10, "material.thickness"),
    ],
)
def test_a_record_that_is_itself_wrong_is_said(changes: dict[str, str], line: int, field: str) -> None:
    """A record's names, units and day are held too, and a wall must have both ends."""
    found = refused(changes)
    assert (found[0].line, found[0].field) == (line, field)
