"""Files beside the record: named by their bytes, synced before they are named, never half there, never trusted."""

import errno
import hashlib
import os
from pathlib import Path

import pytest

from server.record.files import FileDamaged, FileNotKept, Files
from server.record.troubles import NoRoom


def kept_under(folder: Path) -> list[Path]:
    return [path for path in (folder / "record" / "files").rglob("*") if path.is_file()]


def test_what_was_kept_is_read_back(tmp_path: Path) -> None:
    """The name is the SHA-256 of the bytes, and under it the same bytes are found by anybody who opens the folder."""
    name = Files(tmp_path).keep(b"time_s;amps;volts\n")
    assert name == hashlib.sha256(b"time_s;amps;volts\n").hexdigest()
    assert Files(tmp_path).read(name) == b"time_s;amps;volts\n"


def test_the_same_bytes_are_kept_once(tmp_path: Path) -> None:
    """Sending a file again neither adds one nor touches the one that is there."""
    files = Files(tmp_path)
    files.keep(b"a")
    (path,) = kept_under(tmp_path)
    before = path.stat()
    assert files.keep(b"a") == path.name
    assert kept_under(tmp_path) == [path]
    assert (path.stat().st_ino, path.stat().st_mtime_ns) == (before.st_ino, before.st_mtime_ns)


@pytest.mark.parametrize("name", ["f" * 64, "", "../../strawline.toml", "F" * 64, "a" * 63])
def test_what_is_not_there_is_not_there(tmp_path: Path, name: str) -> None:
    """An unknown SHA-256, or what is none at all, gives no file and leaves the folder's walls."""
    (tmp_path / "strawline.toml").write_text("port = 1\n")
    assert Files(tmp_path).read(name) is None


def test_a_changed_file_is_not_given_out(tmp_path: Path) -> None:
    """One bit changed on the disk is found when the file is read, or sent again."""
    files = Files(tmp_path)
    name = files.keep(b"abc")
    kept_under(tmp_path)[0].write_bytes(b"abd")
    with pytest.raises(FileDamaged, match="backup"):
        files.read(name)
    with pytest.raises(FileDamaged):
        files.keep(b"abc")


def test_bytes_and_names_reach_the_disk_before_it_returns(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The bytes are synced before the file has its name; then the name and every folder on the way to it are."""
    name = hashlib.sha256(b"abc").hexdigest()
    path = tmp_path / "record" / "files" / name[:2] / name
    told: list[tuple[int, bool]] = []
    real = os.fsync

    def watched(handle: int) -> None:
        told.append((os.fstat(handle).st_ino, path.exists()))
        real(handle)

    monkeypatch.setattr(os, "fsync", watched)
    Files(tmp_path).keep(b"abc")
    synced = [path, path, *list(path.parents)[:4]]
    assert [node for node, _ in told] == [each.stat().st_ino for each in synced]
    assert [named for _, named in told] == [False, True, True, True, True, True]
    assert synced[-1] == tmp_path


@pytest.mark.parametrize(
    ("number", "trouble"), [(errno.ENOSPC, NoRoom), (errno.EDQUOT, NoRoom), (errno.EIO, FileNotKept)]
)
def test_a_disk_that_does_not_take_it_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int, trouble: type[Exception]
) -> None:
    """A full or failing disk is told in shop words, no half file stays, and once it is mended the file is taken."""
    files = Files(tmp_path)

    def failing(_: int) -> None:
        raise OSError(number, os.strerror(number))

    with monkeypatch.context() as broken:
        broken.setattr(os, "fsync", failing)
        with pytest.raises(trouble):
            files.keep(b"abc")
    assert kept_under(tmp_path) == []
    assert files.read(files.keep(b"abc")) == b"abc"
