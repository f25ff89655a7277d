"""The model of a disk: what was synced is always there, what was not may be gone, whole or torn, and names as well."""

import random
from pathlib import Path

import pytest

from tests.faults.power import Disk, images
from tests.faults.syscalls import Acknowledged, Named, Synced, Truncated, Wrote

MANY = 200


@pytest.fixture
def disk(tmp_path: Path) -> Disk:
    """A disk with one file of two sectors on it."""
    (tmp_path / "a").write_bytes(b"0" * 1024)
    return Disk(tmp_path)


def contents(disk: Disk, path: Path) -> set[bytes | None]:
    dice = random.Random(3)
    return {disk.image(dice).files.get(str(path)) for _ in range(MANY)}


def test_what_was_synced_stays(disk: Disk, tmp_path: Path):
    """After the sync every image has the new bytes."""
    disk.follow(Wrote(str(tmp_path / "a"), 0, b"1" * 1024))
    disk.follow(Synced(str(tmp_path / "a")))
    assert contents(disk, tmp_path / "a") == {b"1" * 1024}


def test_what_was_not_may_be_old_new_or_torn(disk: Disk, tmp_path: Path):
    """Before it there are images with the old bytes, with the new ones, and with a sector of each."""
    disk.follow(Wrote(str(tmp_path / "a"), 0, b"1" * 1024))
    sectors = [b"0" * 512, b"1" * 512]
    assert contents(disk, tmp_path / "a") == {left + right for left in sectors for right in sectors}


def test_writes_may_be_kept_in_any_order(disk: Disk, tmp_path: Path):
    """Of two writes that waited the later one may be there without the earlier one."""
    disk.follow(Wrote(str(tmp_path / "a"), 0, b"1" * 512))
    disk.follow(Wrote(str(tmp_path / "a"), 512, b"2" * 512))
    assert b"0" * 512 + b"2" * 512 in contents(disk, tmp_path / "a")


def test_a_cut_off_may_not_have_happened(disk: Disk, tmp_path: Path):
    """A file that was cut off, and not synced, may still be long."""
    disk.follow(Truncated(str(tmp_path / "a"), 0))
    assert contents(disk, tmp_path / "a") == {b"", b"0" * 1024}
    disk.follow(Synced(str(tmp_path / "a")))
    assert contents(disk, tmp_path / "a") == {b""}


def test_a_new_name_needs_its_folder_synced(disk: Disk, tmp_path: Path):
    """Synced itself, a new file may be gone until its folder was synced too; the same of one removed."""
    disk.follow(Named(str(tmp_path / "b"), there=True))
    disk.follow(Wrote(str(tmp_path / "b"), 0, b"x"))
    disk.follow(Synced(str(tmp_path / "b")))
    assert contents(disk, tmp_path / "b") == {b"x", None}
    disk.follow(Synced(str(tmp_path)))
    assert contents(disk, tmp_path / "b") == {b"x"}
    disk.follow(Named(str(tmp_path / "b"), there=False))
    assert contents(disk, tmp_path / "b") == {b"x", None}


def test_an_answer_counts_from_when_it_was_given(tmp_path: Path):
    """An image holds the receipts given before its cut, and no later ones."""
    receipts = [{"entry": name} for name in "abc"]
    happened = [Acknowledged([receipt]) for receipt in receipts]
    found = {frozenset(image.receipts) for image in images(tmp_path, list(happened), 100, 5)}
    assert found == {frozenset(""), frozenset("a"), frozenset("ab"), frozenset("abc")}
