"""The shop's own sheet, and when its texts were released."""

import pytest

from server.facts.moment import parse_moment
from server.sheets.complaint import SheetRefused
from server.work.shop_sheet import read_shop

SHEET = 'name = "Barrow works"\nzone = "UTC"\nprocedures = "../written"\n'


def test_the_shop_becomes_a_line_and_the_rest_says_where_to_look() -> None:
    """The shop's line holds what is its own; where procedures lie is for reading the folder and is not told."""
    written, line = read_shop(SHEET)
    assert (written.procedures, written.designs) == ("../written", "designs")
    assert line.words == {"kind": "shop", "id": "shop", "name": "Barrow works", "zone": "UTC"}
    assert line.received_ms is None


def test_a_released_file_has_its_moment_and_its_person() -> None:
    """A file named as released says when and by whom."""
    told = SHEET + '[[released]]\nfile = "a.toml"\nreceived_at = 2025-05-02T15:10:00+02:00\nby = "lead"\n'
    (released,) = read_shop(told)[0].released
    assert (released.received_at, released.by) == (parse_moment("2025-05-02T13:10:00Z"), "lead")


@pytest.mark.parametrize(("sheet", "line", "field"), [("name = 3\n", 1, "name"), ('name = "a"\nnme = "b"\n', 2, "nme")])
def test_a_slip_is_named(sheet: str, line: int, field: str) -> None:
    """A wrong type and an unknown field are named with file and line."""
    with pytest.raises(SheetRefused) as refused:
        read_shop(sheet)
    (told,) = refused.value.complaints
    assert (told.file, told.line, told.field) == ("shop.toml", line, field)
