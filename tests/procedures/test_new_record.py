"""Which changes of a next revision want a new supporting record, by the tables its records name."""

from server.facts.change_table import ChangeRow, ChangeTable
from server.procedures.new_record import RecordAsked, record_missing, records_asked
from tests.procedures.ladder import ladder

ROWS = (
    ChangeRow(clause="1.1", variable="filler", change=("added", "dropped"), source="own copy"),
    ChangeRow(clause="1.2", variable="brush", groups=("M-1",), source="own copy"),
    ChangeRow(clause="1.2", variable="brush", groups=("M-2",), needs="no new record", source="own copy"),
    ChangeRow(clause="1.3", variable="interpass", raised_by=10, source="own copy"),
    ChangeRow(clause="1.4", variable="peak_current", lowered_by=5, source="own copy"),
)
TABLES = {"LC": ChangeTable(id="LC", edition="2030", rows=ROWS)}
NAMED = {'standard = "the ladder shop\'s own"': 'standard = "our code"\nchanges_by = ["LC"]'}
BARE = {'filler_classes = ["ERTi-2"]': "filler_classes = []"}
SECOND = '[[cautions]]\nwhere = "at the arc"'
TESTED = {SECOND: '[[supports]]\nid = "QR-2"\ndated = 2031-01-20\nstandard = "our code"\n' + SECOND}
WELDED = {"[supports.ranges]": "[supports.variables]\nfiller = []\n[supports.ranges]"}


def said(**variables: str) -> dict[str, str]:
    lines = "\n".join(f'"{name.replace("_", " ")}" = ["{value}"]' for name, value in variables.items())
    return {"[limits]": f"[variables]\n{lines}\n[limits]"}


def asked(was: dict[str, str], now: dict[str, str]) -> dict[str, RecordAsked]:
    return {each.variable: each for each in records_asked(ladder(**NAMED | was), ladder(**NAMED | now), TABLES)}


def test_without_a_table_nothing_is_asked() -> None:
    """A record that names no table leaves the question to the shop's own copy."""
    assert records_asked(ladder(), ladder(**BARE), TABLES) == []


def test_a_table_nobody_typed_in_is_unknown() -> None:
    """A named table that is not on record answers unknown, and does not hold the release."""
    found = records_asked(ladder(**NAMED), ladder(**NAMED | BARE), {})
    assert [(each.variable, each.answer) for each in found] == [("LC", "unknown")]
    assert record_missing(found) == []


def test_a_name_taken_out_is_still_asked() -> None:
    """The old revision's table speaks even where the new one no longer names it."""
    found = records_asked(ladder(**NAMED), ladder(**BARE), TABLES)
    assert {each.variable: each.answer for each in found}["filler"] == "new record"


def test_what_wants_a_record_is_missing_until_one_is_named() -> None:
    """Filler taken out: no record holds the release, a record new with the revision is named for the reader to see."""
    bare = asked({}, BARE)["filler"]
    assert (bare.was, bare.now, bare.answer) == ("added", "none", "new record")
    assert "filler: added became none; by 1.1 that wants a new supporting record" in record_missing([bare])[0]
    named = asked({}, BARE | TESTED)["filler"]
    assert (named.answer, "QR-2" in named.why) == ("record named", True)
    assert record_missing([named]) == []


def test_a_record_welded_so_wants_no_other() -> None:
    """A record that tells it was welded without filler carries the change."""
    assert asked(WELDED, BARE | WELDED)["filler"].answer == "no new record"
    assert asked(BARE | WELDED, WELDED)["filler"].answer == "new record"


def test_rows_are_for_their_metals() -> None:
    """One row wants a record, one does not, a metal no row is for is unknown, and so is one nobody wrote down."""
    for group, answer in (("M-1", "new record"), ("M-2", "no new record"), ("M-3", "unknown")):
        was, now = (said(metal_group=group, brush=each) for each in ("wire", "nylon"))
        assert asked(was, now)["brush"].answer == answer
    unsaid = asked(said(brush="wire"), said(brush="nylon"))["brush"]
    assert (unsaid.answer, "metal group" in unsaid.why) == ("unknown", True)


def test_a_variable_the_sheet_does_not_tell_is_unknown() -> None:
    """What is asked for and not said is unknown; what is said and the same is not listed."""
    found = asked({}, {})
    assert (found["brush"].answer, "filler" in found) == ("unknown", False)
    assert 'write it under [variables]' in found["brush"].why


def test_a_limit_moved_far_enough() -> None:
    """Ten degrees up and five amperes down are named with both ends; less is not, nor is the other way."""
    found = asked({}, {"high = 140": "high = 158", "low = 60": "low = 65"})
    assert (found["metal temperature before the next pass"].was, "peak current" in found) == ("60 °C", False)
    found = asked({}, {"high = 140": "high = 157", "low = 60": "low = 55"})
    assert [each for each in found if each != "brush"] == ["peak current"]
    assert (found["peak current"].now, found["peak current"].clause) == ("55 A", "1.4")
