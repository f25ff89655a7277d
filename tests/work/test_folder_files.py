"""A shop folder's files: checked by what they hold, kept by their SHA-256, and told of once."""

import hashlib
from pathlib import Path

import pytest

from server.commands import init, load
from server.facts.supplies import Arrived
from server.record.book_of_lines import Record, now_ms
from server.record.files import Files
from server.settings import read_settings
from server.work.folder_files import load_folder_files, read_folder_files
from server.work.shop_folder import FolderUnreadable
from tests.documents.drawn_picture import as_bytes, drawn, from_a_telephone

PLAIN, TELEPHONE, PDF = as_bytes(drawn()), from_a_telephone(drawn("#8a5a2b")), b"%PDF-1.7\n%%EOF\n"
NAMED = hashlib.sha256(PLAIN).hexdigest()


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Two pictures, one named by its hash, and a paper."""
    for name, content in ((f"photos/{NAMED}.jpg", PLAIN), ("photos/b.jpg", TELEPHONE), ("files/sheet.pdf", PDF)):
        (tmp_path / "shop" / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "shop" / name).write_bytes(content)
    return tmp_path / "shop"


def test_they_are_kept_and_told_once(folder: Path, tmp_path: Path) -> None:
    """Loaded twice, each picture has arrived once; the paper is kept byte for byte and tells nothing of its own."""
    record = Record.open(f"sqlite:///{tmp_path / 'record.sqlite3'}", tmp_path)
    files, found = Files(tmp_path), read_folder_files(folder)
    assert [load_folder_files(record, files, found, now_ms()) for _ in range(2)] == [3, 3]
    with record.reads() as reads:
        arrived = [each.entry for each in reads.every_entry()]
    record.close()
    named = [each.sha256 for each in arrived if isinstance(each, Arrived)]
    assert sorted(named) == sorted((NAMED, hashlib.sha256(TELEPHONE).hexdigest()))
    assert files.read(hashlib.sha256(PDF).hexdigest()) == PDF


def test_the_command_loads_them(folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """`load` checks and keeps them with the folder's lines, and says how many."""
    init.run([str(tmp_path / "other")])
    (tmp_path / "other" / "photos").mkdir()
    (tmp_path / "other" / "photos" / "a.jpg").write_bytes(PLAIN)
    assert load.run([str(tmp_path / "other"), "--data", str(tmp_path / "data")]) == 0
    assert "1 files kept" in capsys.readouterr().out
    assert Files(read_settings(tmp_path / "data").data_folder).read(NAMED) == PLAIN


def test_what_is_wrong_is_said_of_every_file(folder: Path) -> None:
    """A picture under another's hash, a page of script as a picture and as a paper: all named, nothing loaded."""
    (folder / "photos" / f"{'0' * 64}.jpg").write_bytes(PLAIN)
    (folder / "photos" / "c.png").write_bytes(b"<script>")
    (folder / "files" / "d.pdf").write_bytes(b"<script>")
    with pytest.raises(FolderUnreadable) as said:
        read_folder_files(folder)
    assert [each.file for each in said.value.complaints] == [f"photos/{'0' * 64}.jpg", "photos/c.png", "files/d.pdf"]


def test_a_folder_without_files_is_fine(tmp_path: Path) -> None:
    """Neither folder has to be there."""
    assert read_folder_files(tmp_path) == ((), ())
