"""Which change of a procedure wants a new qualification record: rows of ASME IX QW-256 read in copies.

Read: an article on the essential variables of all processes (QW-404.5, QW-404.14), an inspectors' forum quoting
QW-408.9. FROM MEMORY, so typed in by a shop and not brought along: QW-408.10.
"""

import pytest

from server.facts.change_table import ChangeRow, ChangeTable
from server.facts.published_changes import published_changes
from server.procedures.new_record import RecordAsked, records_asked
from tests.procedures.ladder import ladder

READ = "ASME IX QW-256, rows read"
PURGED = 'rod = { allowed = [1.1], unit = "mm", source = "QR-1", plan = { when = "every fill" } }'
GAS = PURGED + '\ngas = { allowed = ["argon"], source = "QR-1", plan = { when = "never" } }'
OXYGEN = 'oxygen = { high = 0.003, unit = "%", source = "QR-1", plan = { when = "every pass", how = "read" } }\n'


def asked(variables: str, was: dict[str, str], now: dict[str, str], *more: ChangeTable) -> dict[str, RecordAsked]:
    tables = published_changes() | {table.id: table for table in more}
    base = {
        'standard = "the ladder shop\'s own"': f'standard = "ASME IX"\nchanges_by = {list(tables)}'.replace("'", '"'),
        "[limits]": f"[variables]\n{variables}\n[limits]",
        PURGED: GAS,
    }
    return {each.variable: each for each in records_asked(ladder(**base | was), ladder(**base | now), tables)}


@pytest.mark.parametrize(("group", "answer"), [("P-53", "new record"), ("P-8", "no new record")])
def test_backing_gas_taken_away(group: str, answer: str):
    """QW-408.9: a groove weld in P-53 without its backing gas wants a new record, in P-8 it does not."""
    without = {OXYGEN: "", 'oxygen = { high = 30, unit = "ppm" }\n': ""}
    found = asked(f'"metal group" = ["{group}"]\n"kind of weld" = ["groove"]', {}, without)["backing gas"]
    assert (found.was, found.now, found.answer, found.clause) == ("argon", "none", answer, "QW-408.9")


@pytest.mark.parametrize("group", ["P-51", "P-52", "P-53"])
def test_analysis_of_weld_metal_of_titanium(group: str):
    """QW-404.5: the A-number is for ferrous metals; of titanium it is not asked."""
    plain = f'"metal group" = ["{group}"]'
    assert asked(plain, {}, {})["weld metal analysis"].answer == "does not apply"
    one, two = (f'"metal group" = ["{group}"]\n"weld metal analysis" = ["{each}"]' for each in ("A-1", "A-2"))
    assert asked(one, {}, {one: two})["weld metal analysis"].answer == "does not apply"


@pytest.mark.parametrize("added", [True, False])
def test_filler_added_or_removed(added: bool):
    """QW-404.14: filler removed from, or added to, what the record was welded with wants a new record."""
    without = {'filler_classes = ["ERTi-2"]': "filler_classes = []"}
    was, now = (without, {}) if added else ({}, without)
    found = asked('"metal group" = ["P-53"]', was, now)["filler"]
    assert (found.answer, found.clause) == ("new record", "QW-404.14")


@pytest.mark.parametrize(("low_cfh", "wanted"), [(18, True), (19, False)])
def test_trailing_flow_cut_by_a_tenth(low_cfh: int, wanted: bool):
    """QW-408.10 FROM MEMORY, as a shop would type it in: 20 to 18 cfh wants a new record, 20 to 19 does not."""
    row = ChangeRow(clause="QW-408.10", variable="trailing_flow", lowered_percent=10, source="from memory")
    flow = 'trailing_flow = {{ low = {}, unit = "CFH", source = "QR-1", plan = {{ when = "never" }} }}\n[[supports]]'
    was, now = ({"[[supports]]": flow.format(each)} for each in (20, low_cfh))
    found = asked('"metal group" = ["P-53"]', was, now, ChangeTable(id="own copy", edition="from memory", rows=(row,)))
    assert (found["trailing gas flow"].answer == "new record") if wanted else ("trailing gas flow" not in found)
