"""A certificate's file is kept under its SHA-256 beside its register line; only pictures and PDFs are."""

from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

import pytest

from server.record.book_of_lines import Record, now_ms
from server.record.files import Files
from server.work.keep_certificate import CertificateGiven, certificates_of, keep_certificate, may_have_certificates
from server.work.refusal import NotThere, Unreadable
from tests.work.small_shop import open_shop

PAPER = b"%PDF-1.7\n1 0 obj\nendobj\n%%EOF\n"


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    yield made
    made.close()


def keep(record: Record, folder: Path, of: str, content: bytes = PAPER) -> str:
    given = CertificateGiven(of, "lot.pdf", content, "LEA")
    return record.write(lambda reads: keep_certificate(reads, Files(folder), given, now_ms())).result()


def a_lot(record: Record) -> str:
    with record.reads() as reads:
        return next(iter(may_have_certificates(reads.registers())["filler lot"]))


def test_the_file_is_kept_and_named_by_its_digest(shop: Record, tmp_path: Path):
    """The lot has the file with its name, length and SHA-256, and the bytes come back."""
    keep(shop, tmp_path, f"filler lot:{a_lot(shop)}")
    with shop.reads() as reads:
        (found,) = certificates_of(reads.registers(), "filler lot", a_lot(shop))
    assert (found.name, found.length, found.sha256) == ("lot.pdf", len(PAPER), sha256(PAPER).hexdigest())
    assert Files(tmp_path).read(found.sha256) == PAPER


def test_the_same_file_again_is_one_line_and_another_stands_beside_it(shop: Record, tmp_path: Path):
    """Brought twice it is answered with the first; a better copy is a second file."""
    of = f"filler lot:{a_lot(shop)}"
    assert keep(shop, tmp_path, of) == keep(shop, tmp_path, of)
    keep(shop, tmp_path, of, PAPER.replace(b"1.7", b"1.6"))
    with shop.reads() as reads:
        assert len(certificates_of(reads.registers(), "filler lot", a_lot(shop))) == 2


def test_what_is_no_certificate_is_refused_and_not_kept(shop: Record, tmp_path: Path):
    """A script, no file at all, and a lot nobody knows are refused; nothing is told."""
    of = f"filler lot:{a_lot(shop)}"
    with pytest.raises(Unreadable, match="PDF"):
        keep(shop, tmp_path, of, b"<script>")
    with pytest.raises(Unreadable, match="none chosen"):
        keep(shop, tmp_path, of, b"")
    for strange in ("filler lot:nobody", "person:LEA", "nonsense"):
        with pytest.raises(NotThere, match="no line of a register"):
            keep(shop, tmp_path, strange)
    with shop.reads() as reads:
        assert reads.registers().certificate_files == {}
