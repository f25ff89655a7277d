"""Every certificate a frame rests on stands in one place."""

from datetime import timedelta
from pathlib import Path

import pytest

from server.record.book_of_lines import Record, now_ms
from server.record.files import Files
from server.work.frame_certificates import RestsOn, frame_certificates
from server.work.keep_certificate import CertificateGiven, keep_certificate
from server.work.refusal import NotThere
from tests.story.log import DAY, LINES, Tablet, counted
from tests.work.small_shop import open_shop, send, tell, weld_it_all


def found(shop: Record) -> list[RestsOn]:
    with shop.reads() as reads:
        return frame_certificates(reads, "SW-1")


def test_what_was_logged_leads_to_its_certificates(tmp_path: Path):
    """The tube's heat is known by its pieces; rods, instruments and welder come with what was logged."""
    shop = open_shop(tmp_path)
    before = found(shop)
    send(shop, *weld_it_all(Tablet("SLATE")))
    after = [(each.of_kind, each.of, each.number, each.used) for each in found(shop)]
    shop.close()
    heat = ("tube heat", "H-1", "3.1 H-1", "pieces SW-1 SH, SW-1 ST, SW-1 DT, SW-1 HT")
    # The story's shop moves with today; its packet is two months younger than its calibrations.
    calibrated = (DAY - timedelta(days=60)).date().isoformat()
    assert [(each.of_kind, each.of, each.number, each.used) for each in before] == [heat]
    assert after == [
        heat,
        ("filler lot", "R9", "3.1 R9", "sleeves S-1"),
        ("calibration", f"OX {calibrated}T09:00:00.000Z", None, "passed"),
        ("calibration", f"PW {calibrated}T09:10:00.000Z", None, "passed"),
        ("qualification", "Q-1", "Q-1", "procedures TUBE"),
    ]


def test_a_meter_that_was_never_calibrated_says_so_and_a_kept_file_stands_beside(tmp_path: Path):
    """A gap among the certificates is a row of its own; a file kept for one of them is named with it."""
    shop = open_shop(tmp_path)
    tell(shop, kind="instrument", id="SPARE", title="spare meter")
    values = counted("40", "10", "80", "8")
    values["oxygen"]["by"] = "SPARE"
    send(shop, Tablet("SLATE").on_joint("1:00", "pass", "A", run="root", setup="one", values=values, **LINES))
    given = CertificateGiven("tube heat:H-1", "heat.pdf", b"%PDF-1.7\n%%EOF\n", "LEA")
    shop.write(lambda reads: keep_certificate(reads, Files(tmp_path), given, now_ms())).result()
    rows = {(each.of_kind, each.of): each for each in found(shop)}
    shop.close()
    assert rows["calibration", "none"].what == "SPARE, spare meter"
    assert [each.name for each in rows["tube heat", "H-1"].files] == ["heat.pdf"]
    assert not rows["calibration", "none"].files


def test_an_unknown_serial_has_none(tmp_path: Path):
    """A serial that no packet names is refused by its name."""
    shop = open_shop(tmp_path)
    with shop.reads() as reads, pytest.raises(NotThere, match="ZZ-9"):
        frame_certificates(reads, "ZZ-9")
    shop.close()
