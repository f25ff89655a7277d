"""The registers on the screen and on paper, and the files of certificates beside their lines."""

from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

import pytest

from tests.pages.shop_app import ShopApp
from tests.story.log import Tablet
from tests.work.small_shop import send, tell

PAPER = b"%PDF-1.7\n1 0 obj\nendobj\n%%EOF\n"


@pytest.fixture(scope="module")
def app(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ShopApp]:
    made = ShopApp(Path(tmp_path_factory.mktemp("registers")))
    send(made.record, Tablet("SLATE").tell("0:10", "cylinder", line="N-P", on="C-1"))
    failed = {"instrument": "OX", "result": "fail", "at": "2026-01-05T09:00:00.000Z", "certificate": "K-7"}
    tell(made.record, kind="calibration", id="OX failed", **failed, as_found=[["10", "14.5"], ["50", "62"]])
    yield made
    made.record.close()


def a_lot(app: ShopApp) -> str:
    with app.record.reads() as reads:
        return next(iter(reads.registers().filler_lots))


def test_the_screen_shows_every_register(app: ShopApp):
    """Qualifications, instruments, gas lines, rods and tube heats each stand with what the record holds of them."""
    text = app.get("/registers", "LEA").text
    with app.record.reads() as reads:
        known = reads.registers()
    for names in (known.qualifications, known.instruments, known.filler_lots, known.heats, {"C-1": ""}):
        assert names
        assert all(name in text for name in names)


def test_the_continuity_log_has_every_confirmation(app: ShopApp):
    """Each qualification and each of its confirmations is a line, with how it stands."""
    text = app.get("/registers/continuity", "LEA").text
    with app.record.reads() as reads:
        known = reads.registers()
    assert text.count("<td>confirmed</td>") == len(known.confirmations)
    assert all(name in text for name in known.qualifications)
    assert "lapse" in text


def test_the_calibration_register_tells_what_was_found(app: ShopApp):
    """A failed calibration stands with true and shown values and its certificate; every calibration is a line."""
    text = app.get("/registers/calibrations", "LEA").text
    assert "10, 14.5; 50, 62" in text
    assert "K-7" in text
    with app.record.reads() as reads:
        passed = [each for each in reads.registers().calibrations.values() if each.result == "pass"]
    assert (text.count("<td>passed</td>"), text.count("<strong>failed</strong>")) == (len(passed), 1)


def test_a_certificate_is_brought_and_handed_out_byte_for_byte(app: ShopApp):
    """A PDF is kept, stands beside its lot with its digest, and comes back as an attachment, for readers only."""
    sent = {"data": {"of": f"filler lot:{a_lot(app)}"}, "files": {"file": ("3.1 lot.pdf", PAPER, "text/html")}}
    assert app.post("/registers/certificates", "LEA", **sent).status_code == 303
    digest = sha256(PAPER).hexdigest()
    page = app.get("/registers", "LEA").text
    assert "3.1 lot.pdf" in page
    assert digest[:16] in page
    answer = app.get(f"/registers/certificates/{digest}", "LEA")
    assert answer.content == PAPER
    assert answer.headers["content-disposition"].startswith("attachment")
    assert app.get(f"/registers/certificates/{digest}", "WEL").status_code == 403


def test_what_is_no_certificate_is_refused_in_words(app: ShopApp):
    """A script and an unknown lot are refused and say what is expected; an unknown digest or register is not there."""
    of = f"filler lot:{a_lot(app)}"
    script = app.post("/registers/certificates", "LEA", data={"of": of}, files={"file": ("a.pdf", b"<script>", "a/b")})
    assert script.status_code == 422
    assert "whole PDF" in script.text
    strange = app.post("/registers/certificates", "LEA", data={"of": "x:y"}, files={"file": ("a.pdf", PAPER, "a/b")})
    assert "no line of a register" in strange.text
    assert app.get(f"/registers/certificates/{'0' * 64}", "LEA").status_code == 404
    assert app.get("/registers/secrets", "LEA").status_code == 404
