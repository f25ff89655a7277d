"""A release certificate says what was known when the release was signed, the same every time, as an archivable PDF."""

import io
import json
from collections.abc import Iterator
from pathlib import Path

import pikepdf
import pytest

from server.documents.certificate import certificate_pdf
from server.record.book_of_lines import Record
from server.work.certificate import release_certificate
from server.work.judge_new import judge_new
from server.work.refusal import NotThere
from tests.documents.archive_check import archive_verdict
from tests.story.log import Tablet
from tests.work.small_shop import LEAD, OWNER, a_pass, accept_all, open_shop, pass_gate, send, tell, weld_it_all


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    send(made, *weld_it_all(Tablet("SLATE")))
    accept_all(made)
    yield made
    made.close()


def told(record: Record) -> dict[str, object]:
    with record.reads() as reads:
        return release_certificate(reads, "SW-1")


def test_there_is_none_before_the_release(shop: Record):
    """A frame that is not released has no certificate."""
    pass_gate(shop, "final inspection")
    with pytest.raises(NotThere, match="has not been released"):
        told(shop)


def test_what_comes_later_changes_nothing(shop: Record):
    """A bad pass that comes in after the release leaves the certificate's bytes as they were."""
    for gate in ("final inspection", "release"):
        pass_gate(shop, gate)
        judge_new(shop)
    before = certificate_pdf(told(shop))
    send(shop, a_pass(Tablet("PAD"), "5:00", "C", oxygen="300"))
    assert certificate_pdf(told(shop)) == before


def test_it_names_who_signed_and_carries_its_data(shop: Record):
    """The PDF says it is PDF/A-3b, and the attached data names the signers, the joints and the decisions."""
    for gate in ("final inspection", "release"):
        pass_gate(shop, gate)
        judge_new(shop)
    with pikepdf.open(io.BytesIO(certificate_pdf(told(shop)))) as made:
        with made.open_metadata() as about:
            assert (about["pdfaid:part"], about["pdfaid:conformance"]) == ("3", "B")
        data = json.loads(made.attachments["certificate.json"].get_file().read_bytes())
    assert [(each["name"], each["role"]) for each in data["released"]] == [("Quin Moor", "quality lead")]
    assert [(each["joint"], each["passes"]) for each in data["joints"]] == [("A", 2), ("B", 2), ("C", 2)]
    assert data["decisions"]
    assert data["signed_over"] == []
    assert data["judged"] is True


def test_a_release_older_than_the_judging_claims_nothing(shop: Record):
    """A release told from paper, signed at a position where nothing was judged, says nothing about what was open."""
    signed = {"person": "LEA", "role": "quality lead", "at": "2030-01-01T00:00:00.000Z", "meaning": "out with it"}
    paper = {"permits": "release", "frame": "SW-1", "signatures": [signed | {"shown_sha256": "0" * 64}]}
    with pytest.raises(NotThere):
        told(shop)
    with shop.reads() as reads:
        issued = reads.registers().positions["packet:SW-1"]
    tell(shop, kind="permission", id="P-old", **paper | {"known_at": issued})
    assert told(shop)["judged"] is False


def test_what_was_signed_over_stands_on_it(shop: Record):
    """An override is written on the certificate with its reason and everything that was open."""
    send(shop, a_pass(Tablet("PAD"), "5:00", "C", oxygen="300"))
    pass_gate(shop, "release", LEAD, OWNER, override="the customer waits")
    found = told(shop)
    assert found["reason"] == "the customer waits"
    assert any("oxygen" in each for each in found["signed_over"])  # type: ignore[attr-defined]


def test_it_is_pdf_a_3b(shop: Record, tmp_path: Path):
    """veraPDF's engine finds nothing wrong with a certificate of a released frame."""
    pass_gate(shop, "final inspection")
    judge_new(shop)
    pass_gate(shop, "release")
    (tmp_path / "certificate.pdf").write_bytes(certificate_pdf(told(shop)))
    said = archive_verdict(tmp_path / "certificate.pdf")
    assert said.startswith("compliant=true"), said
    assert int(said.split("checks=")[1].split()[0]) > 500
