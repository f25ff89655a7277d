"""The registers say what holds until when, and which cylinder was on which line."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from server.facts.people import Confirmation, Qualification
from server.facts.registers import Registers
from server.record.book_of_lines import Record
from server.work.register_sheets import calibrated, on_lines, qualified
from tests.story.log import Tablet
from tests.work.small_shop import open_shop, send, tell


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    yield made
    made.close()


def registers(*confirmed: str) -> Registers:
    told = {"welder": "WEL", "procedures": ("TUBE",), "thickness_mm": (0.7, 1.6), "standard": "shop test"}
    held = Qualification.model_validate(told | {"id": "Q-1", "issued": date(2031, 1, 10), "months": 6})
    by = {"qualification": "Q-1", "by": "LEA"}
    signed = {day: Confirmation.model_validate(by | {"id": day, "dated": day}) for day in confirmed}
    return Registers(qualifications={"Q-1": held}, confirmations=signed)


@pytest.mark.parametrize(
    ("confirmed", "last"),
    [((), date(2031, 7, 10)), (("2031-06-01",), date(2031, 12, 1)), (("2031-08-01",), date(2031, 7, 10))],
)
def test_a_confirmation_in_time_carries_on_and_a_late_one_does_not(confirmed: tuple[str, ...], last: date):
    """Six whole months from issue, or from a confirmation given while it still held."""
    found = qualified(registers(*confirmed))[0]
    assert date.fromordinal(found.last) == last


def test_the_sentence_says_which_day_it_lapses():
    """Before its last day it says what keeps it; on the day after, that only a new test piece does."""
    found = qualified(registers())[0]
    assert found.sentence(found.last).startswith("lapses after 10 July 2031 unless it is confirmed")
    assert found.sentence(found.last + 1).startswith("lapsed after 10 July 2031: a confirmation renews nothing")


def test_cylinders_follow_one_another_on_their_line(shop: Record):
    """A change ends one band and begins the next; the last one is still on; beads stand with their result."""
    slate = Tablet("SLATE")
    send(
        shop,
        slate.tell("0:10", "cylinder", line="N-P", on="C-1"),
        slate.tell("0:20", "bead", line="N-P", result="good"),
        slate.tell("3:00", "cylinder", line="N-P", on="C-2", off="C-1"),
    )
    with shop.reads() as reads:
        line = next(each for each in on_lines(reads) if each.line == "N-P")
    first, second = line.cylinders
    assert (first.cylinder, second.cylinder, second.until_ms) == ("C-1", "C-2", None)
    assert first.until_ms == second.since_ms
    assert [result for _, result in line.beads] == ["good"]


def test_an_instrument_is_due_by_its_last_good_calibration(shop: Record):
    """A failed calibration moves no due day; what it found is kept with it."""
    tell(shop, kind="instrument", id="OX-9", title="spare meter", months=3)
    told = {"kind": "calibration", "instrument": "OX-9"}
    tell(shop, **told, id="c1", at="2031-01-10T09:00:00.000Z", result="pass")
    tell(shop, **told, id="c2", at="2031-03-01T09:00:00.000Z", result="fail", as_found=[["20", "4"]])
    with shop.reads() as reads:
        found = next(each for each in calibrated(reads.registers()) if each.instrument.id == "OX-9")
    assert found.due == date(2031, 4, 10)
    assert [each.result for each in found.calibrations] == ["fail", "pass"]
