"""The dossier keeps: PDF/A-3b by veraPDF's engine, its data attached byte for byte, its pages saying the same."""

import io
import json
import subprocess
from pathlib import Path

import pikepdf
import pytest
import typst

from server.documents.dossier import dossier_json, dossier_pdf
from tests.documents.archive_check import archive_verdict
from tests.documents.sample_dossier import a_dossier


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
    page = _words_of(pdf)
    for joint in json.loads(dossier_json(a_dossier(25)))["joints"]:
        for entry in joint["attempts"][0]["entries"]:
            assert page.count(_close(entry["id"] + " ").strip()) >= 1
            assert _close(entry["what"].split(",")[1]) in page
    assert page.count(_close("oxygen 8 ppm")) == 25
    assert "Heron,size54" in page


def test_the_same_data_gives_the_same_bytes(pdf: bytes):
    """A dossier told again of the same record position can be compared by its hash."""
    assert dossier_pdf(a_dossier(25)) == pdf


def test_an_entry_left_out_changes_the_pages(pdf: bytes):
    """Nothing on the pages comes from anywhere but the data."""
    assert _words_of(dossier_pdf(a_dossier(24))) != _words_of(pdf)


def _words_of(pdf: bytes) -> str:
    done = subprocess.run(["pdftotext", "-raw", "-", "-"], input=pdf, capture_output=True)
    assert done.returncode == 0, "pdftotext is missing: apt-get install poppler-utils, or run .ci/run"
    return _close(done.stdout.decode())


def _close(text: str) -> str:
    """Without spaces, so that where a line was broken does not matter."""
    return "".join(text.split())
