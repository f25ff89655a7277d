"""The key that signs checkpoints is made once, is its owner's alone, and a damaged one is said to be damaged."""

import stat
from pathlib import Path

import pytest

from server.record.signing_key import FILE_NAME, make_signer, read_signer
from server.record.troubles import RecordUnfit


def test_the_key_is_read_back(tmp_path: Path):
    """The key made is the key found again, and nobody but its owner may read its file."""
    made = make_signer(tmp_path)
    found = read_signer(tmp_path)
    assert found is not None
    assert found.key == made.key
    assert stat.S_IMODE((tmp_path / FILE_NAME).stat().st_mode) == 0o600


def test_a_key_is_never_written_over(tmp_path: Path):
    """Where there is a key, none is made."""
    make_signer(tmp_path)
    with pytest.raises(FileExistsError):
        make_signer(tmp_path)


def test_two_records_have_two_names(tmp_path: Path):
    """Each record's key has a name of its own, so that their checkpoints are not mistaken for each other."""
    (tmp_path / "a").mkdir()
    assert make_signer(tmp_path).key.name != make_signer(tmp_path / "a").key.name
    assert read_signer(tmp_path / "nowhere") is None


@pytest.mark.parametrize("text", ["", "name only", "name 00ff", "name zz", "two words " + "00" * 32])
def test_a_damaged_key_is_named(tmp_path: Path, text: str):
    """A key file that was cut or altered is refused with what to do."""
    (tmp_path / FILE_NAME).write_text(text)
    with pytest.raises(RecordUnfit, match=r"record\.key is damaged .* put back the copy"):
        read_signer(tmp_path)
