"""The dossier keeps: PDF/A-3b by veraPDF's engine, its data attached byte for byte, its pages saying the same."""

import io
import json
from pathlib import Path
from typing import Any

import pikepdf
import pytest
import typst

from server.charts.oxygen_series import oxygen_series
from server.documents.dossier import dossier_json, dossier_pdf
from tests.documents.archive_check import archive_verdict
from tests.documents.drawn_picture import as_bytes, drawn, from_a_telephone
from tests.documents.page_text import close, words_of
from tests.documents.sample_dossier import a_dossier, a_finding, an_entry


@pytest.fixture(scope="module")
def pdf() -> bytes:
    return dossier_pdf(a_dossier(25))


def test_it_is_pdf_a_3b(pdf: bytes, tmp_path: Path):
    """veraPDF's engine finds nothing wrong with it."""
    (tmp_path / "one.pdf").write_bytes(pdf)
    told = archive_verdict(tmp_path / "one.pdf")
    assert told.startswith("compliant=true"), told
    assert int(told.split("checks=")[1].split()[0]) > 1000


def test_the_engine_bites(tmp_path: Path):
    """An ordinary PDF is refused by the same engine, so its yes above says something."""
    (tmp_path / "plain.pdf").write_bytes(typst.compile(b"plain", format="pdf"))
    assert archive_verdict(tmp_path / "plain.pdf").startswith("compliant=false")


def test_the_attached_data_is_the_export(pdf: bytes):
    """What is attached is byte for byte what the JSON export gives."""
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        attached = opened.attachments["dossier.json"].get_file()
        assert attached.mime_type == "application/json"
        assert attached.read_bytes() == dossier_json(a_dossier(25))


def test_the_pages_say_what_the_data_says(pdf: bytes):
    """Every joint, entry, value and name of the data is read back from the pages as often as the data has it."""
    page = words_of(pdf)
    for joint in json.loads(dossier_json(a_dossier(25)))["joints"]:
        for entry in joint["attempts"][0]["entries"]:
            assert page.count(close(entry["id"] + " ").strip()) >= 1
            assert close(entry["what"].split(",")[1]) in page
    assert page.count(close("oxygen 8 ppm")) == 25
    assert "Heron,size54" in page


def test_the_same_data_gives_the_same_bytes(pdf: bytes):
    """A dossier told again of the same record position can be compared by its hash."""
    assert dossier_pdf(a_dossier(25)) == pdf


def test_what_was_found_at_a_calibration_has_its_unit_and_a_step_taken_back_says_so():
    """As found in the unit the instrument reads, the reason of a withdrawal on the way, what a test bead is."""
    told = a_dossier(1)
    found = {"shown": "Tue 02 Apr 2030", "result": "pass", "certificate": "C-1", "as_found": [[20, 23]]}
    reads = [{"quantity": "oxygen", "unit": "ppm"}]
    told["instruments"] = [{"id": "OX", "title": "analyser", "doubt": [], "reads": reads, "calibrations": [found]}]
    back = {"id": "SLATE:b1:9", "reason": "tapped by mistake", "withdrawn": True}
    told["way"] = [told["joints"][0]["attempts"][0]["entries"][0] | {"mended_by": [back]}]
    page = words_of(dossier_pdf(told))
    for said in ("20 ppm read as 23 ppm", "withdrawn: tapped by mistake", "test bead is a short weld on scrap"):
        assert close(said) in page


def test_what_bears_no_serial_stands_on_paper_and_what_a_joints_leaves_out_is_not_denied():
    """A failed bead with its id, an analysis beside the certificate, the frame is back; and no *none in the record*
    where a joint's dossier only leaves something out."""
    told = a_dossier(1) | {"joint": "J0", "back": {"at": "", "shown": "Mon 15 Jun 2030 11:05"}}
    told["beside"] = [an_entry(77) | {"what": "test bead on N-P: failed", "values": []}]
    analysis = {"cylinder": "C-2", "dated": "2030-04-09", "laboratory": "the supplier"}
    told["analyses"] = [analysis | {"oxygen_ppm": 38, "dew_point_c": -18, "dew_point_uncertainty_c": None}]
    usual = {"what": "purge oxygen, root, in ppm", "here": [36.0], "least": 5.0, "middle": 7.25, "most": 9.0}
    told["usual"] = [usual | {"passes": 9, "frames": 8}]
    page = words_of(dossier_pdf(told))
    assert close("purge oxygen, root, in ppm 36 5 7.25 9 9 passes on 8 frames") in page
    for said in ("back in the house since Mon 15", "test bead on N-P: failed", "SLATE:b1:77", "38 ppm", "Left out:"):
        assert close(said) in page
    assert close("None about this joint.") in page
    assert close("None in the record. No concession") not in page


def test_what_no_font_has_is_set_by_its_number_and_attached_as_it_was():
    """An emoji, a word in Chinese and a control character in what was typed make a dossier all the same."""
    told = a_dossier(1)
    told["joints"][0]["attempts"][0]["entries"][0]["what"] = "root \U0001f600 \u6c49 \x07 é done"
    made = dossier_pdf(told)
    assert "root[U+1F600][U+6C49][U+7]édone" in words_of(made)
    with pikepdf.open(io.BytesIO(made)) as opened:
        assert opened.attachments["dossier.json"].get_file().read_bytes() == dossier_json(told)


def test_an_entry_left_out_changes_the_pages(pdf: bytes):
    """Nothing on the pages comes from anywhere but the data."""
    assert words_of(dossier_pdf(a_dossier(24))) != words_of(pdf)


@pytest.fixture(scope="module")
def pictured() -> bytes:
    return dossier_pdf(_with_photos(), {"a" * 64: from_a_telephone(drawn()), "d" * 64: as_bytes(drawn("#2f63b5"))})


def test_with_pictures_it_is_pdf_a_3b_still(pictured: bytes, tmp_path: Path):
    """veraPDF's engine finds nothing wrong with it when it carries pictures."""
    (tmp_path / "one.pdf").write_bytes(pictured)
    told = archive_verdict(tmp_path / "one.pdf")
    assert told.startswith("compliant=true"), told


def test_its_pictures_are_in_it(pictured: bytes):
    """The bench's picture and the one signed with a decision are on its pages, without what a camera told."""
    with pikepdf.open(io.BytesIO(pictured)) as opened:
        found = [image for page in opened.pages for image in page.get_images().values()]
        shapes = sorted((int(each.Width), int(each.Height)) for each in found)
    assert shapes == [(320, 200), (320, 200)]
    assert b"Invented" not in pictured


def test_a_caption_says_what_is_known_of_it(pictured: bytes):
    """Place, moment, who, grade, SHA-256; one still away says from where it is awaited; another's says it is void."""
    page = words_of(pictured)
    for said in ("J0, outside, bead", "graded 1", "WEL", "not yet arrived from tablet TAB-9", "void here"):
        assert close(said) in page
    for name in ("a", "b", "d", "e"):
        assert name * 64 in page.replace("\u200b", "")


def _with_photos() -> dict[str, Any]:
    at, shown = "2030-04-02T08:00:00.000Z", "Tue 02 Apr 2030 10:00"
    came: dict[str, Any] = {"entry": "SLATE:b1:50", "sha256": "a" * 64, "kept_sha256": "c" * 64, "arrived": at}
    came |= {"device": "SLATE", "joint": "J0", "where": "J0, outside, bead", "taken": at, "shown": shown}
    came |= {"who": "WEL", "note": None, "grade": 1, "against": ["void here"]}
    away = came | {"sha256": "b" * 64, "kept_sha256": None, "arrived": None, "device": "TAB-9", "against": []}
    signed = {"person": "LEA", "role": "quality lead", "shown": shown, "meaning": "decided: hold"}
    decision: dict[str, Any] = {"id": "D-1", "choice": "hold", "reason": "until it is taken anew", "findings": []}
    decision |= {"signatures": [signed], "attachments": ["d" * 64, "e" * 64]}
    return a_dossier(3) | {"photos": [came, away], "decisions": [decision]}


def test_a_joints_dossier_under_hold_with_its_chart_and_bars_is_pdf_a_3b(tmp_path: Path):
    """One joint, a legal hold, a limit bar with its doubt and the drawn oxygen: the engine finds nothing wrong."""
    told = a_dossier(10) | {"joint": "J0", "legal_hold": {"shown": "Mon 01 Apr 2030", "reason": "counsel asked"}}
    told["joints"][0]["attempts"][0]["findings"] = [a_finding(), a_finding(low=2.0, high=None, uncertainty=None)]
    made = dossier_pdf(told, {}, oxygen_series(told))
    (tmp_path / "joint.pdf").write_bytes(made)
    assert archive_verdict(tmp_path / "joint.pdf").startswith("compliant=true")
    page = words_of(made)
    assert close("SW-1, joint J0") in page
    assert close("Under legal hold since Mon 01 Apr 2030") in page
    assert page.count(close("limit: at most 20 ppm")) == 2


def test_a_drawing_changes_the_pages_and_not_the_attached_data():
    """The chart is drawn beside the data: the attachment stays the export byte for byte."""
    told = a_dossier(10)
    with pikepdf.open(io.BytesIO(dossier_pdf(told, {}, oxygen_series(told)))) as opened:
        assert opened.attachments["dossier.json"].get_file().read_bytes() == dossier_json(told)
    assert dossier_pdf(told, {}, oxygen_series(told)) != dossier_pdf(told)


def test_each_finding_names_its_joint_and_what_is_marginal_holds_nothing_up():
    """What is outside is told apart from what is marginal; only what waits is open, and a removed seam says so."""
    told = a_dossier(20)
    first, second = (joint["attempts"][0] for joint in told["joints"])
    first["findings"] = [a_finding(), a_finding(word="marginal", shown="Gap 0.28 mm.")]
    second["findings"] = [a_finding(removed=True, shown="Cut out since.")]
    page = words_of(dossier_pdf(told))
    assert close("Findings outside their limit or unknown: 2.") in page
    assert close("Marginal: 1.") in page
    assert close("J0 ■ outside. Oxygen 64 ppm.") in page
    assert close("J10 ■ outside. Cut out since.") in page
    assert (
        close("1, at J0. Each stands below in words. and 1 on seams that were cut out and made anew since: J10")
        in page
    )
    assert page.count(close("holds nothing up")) == 2


def test_a_customers_front_page_says_how_many_names_were_taken_out_of_typed_words():
    """The count and what may be left stand on it; on the shop's own page nothing of it does."""
    names = {"typed_names": {"replaced": 3, "says": "A name nobody registered may be left."}}
    theirs, own = (words_of(dossier_pdf(a_dossier(1) | more)) for more in ({"for": "customer"} | names, {}))
    assert close("A name nobody registered may be left. Replaced so: 3 places.") in theirs
    assert close("Replaced so") not in own
