"""Entries as they stand once corrections are read into them."""

from typing import Any

import pytest

from server.occasions.corrections import Corrections
from tests.judgement.log_language import read_log


def stand(log: str):
    told = read_log(log, "2031-03-10", {}, {}).entries
    return {each.entry.id: each.entry for each in Corrections(told).applied(told)}


PASS = "09:00 pass A1 fill sleeve=S-30 oxygen=8 interpass=40 id=fill1\n"


def test_a_field_is_put_right_and_the_rest_stays():
    """A correction of the sleeve changes the sleeve; the correction itself is no entry of the joint."""
    found = stand(PASS + "09:20 correction fill1 sleeve=S-10")
    assert found["fill1"].sleeve == "S-10"
    assert found["fill1"].run == "fill"
    assert list(found) == ["fill1"]


@pytest.mark.parametrize("arrives", ["09:20", "15:00"])
def test_the_correction_written_last_wins(arrives: str):
    """Two corrections of one field: the one written later stands, also when the earlier one came in after it."""
    log = f"09:20 correction fill1 sleeve=S-10 device=PAD arrives={arrives}\n09:30 correction fill1 sleeve=S-20"
    assert stand(PASS + log)["fill1"].sleeve == "S-20"


def test_a_slow_clock_does_not_make_a_correction_older():
    """A tablet two hours behind wrote last all the same: its clock is read by how far off it was when it sent."""
    log = PASS + "09:20 correction fill1 sleeve=S-10\n09:30 correction fill1 sleeve=S-20 device=PAD"
    told = read_log(log, "2031-03-10", {"PAD": 7200}, {}).entries
    (entry,) = Corrections(told).applied(told)
    assert getattr(entry.entry, "sleeve", None) == "S-20"


def test_a_withdrawn_entry_is_gone_and_a_withdrawn_correction_mends_nothing():
    """What was withdrawn stands no more; a correction that was itself withdrawn leaves the entry as it was."""
    assert stand(PASS + "09:20 correction fill1 withdraw=yes") == {}
    found = stand(PASS + "09:20 correction fill1 sleeve=S-10 id=slip\n09:30 correction slip withdraw=yes")
    assert found["fill1"].sleeve == "S-30"


def test_what_names_an_entry_and_its_clock_cannot_be_corrected():
    """Id, device, boot, count and tap stay as the device wrote them; an unknown field mends nothing either."""
    found = stand(PASS + "09:20 correction fill1 device=OTHER seq=9 colour_of_sky=blue run=wash")
    assert (found["fill1"].device, found["fill1"].seq, found["fill1"].run) == ("TAB", 1, "wash")


def test_a_change_that_does_not_fit_mends_nothing():
    """A run that is no run leaves the entry as it was."""
    assert stand(PASS + "09:20 correction fill1 run=polish")["fill1"].run == "fill"


def test_one_value_is_put_right_and_the_others_stay():
    """A correction of the oxygen reading leaves the temperature where it was."""
    told = read_log(PASS + "09:20 correction fill1", "2031-03-10", {}, {}).entries
    value = {"oxygen": {"value": "18", "unit": "ppm", "how": "read", "by": "AN"}}
    mended = [each._replace(entry=each.entry.model_copy(update={"change": {"values": value}}))
              if each.entry.kind == "correction" else each for each in told]  # fmt: skip
    entry: Any = Corrections(mended).applied(mended)[0].entry
    assert (entry.values["oxygen"].value, entry.values["interpass"].value) == (18.0, 40.0)


def test_without_corrections_nothing_changes():
    """A log without corrections stands as it came."""
    assert list(stand(PASS)) == ["fill1"]
