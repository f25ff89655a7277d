"""The pepper is made once beside the record, is its owner's alone, and is the same from then on."""

import stat
from pathlib import Path

from server.record.book_of_lines import Record
from server.record.pepper import BYTES, FILE_NAME, find_pepper
from tests.record.fixtures import url_of


def test_the_pepper_is_found_again(tmp_path: Path):
    """It is made where there is none, given again afterwards, and nobody but its owner may read its file."""
    made = find_pepper(tmp_path)
    assert (len(made), find_pepper(tmp_path)) == (BYTES, made)
    assert stat.S_IMODE((tmp_path / FILE_NAME).stat().st_mode) == 0o600


def test_every_record_has_its_own(tmp_path: Path):
    """An opened record knows the pepper of its folder; another folder has another; the database holds neither."""
    peppers = []
    for name in ("a", "b"):
        (tmp_path / name).mkdir()
        record = Record.open(url_of(tmp_path / name / "record.sqlite3"))
        peppers.append(record.pepper)
        record.close()
        assert record.pepper == find_pepper(tmp_path / name)
        assert record.pepper not in (tmp_path / name / "record.sqlite3").read_bytes()
    assert len(set(peppers)) == 2
