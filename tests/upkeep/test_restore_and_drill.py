"""A backup is restored only as it was made, and a drill recomputes it from its bytes; one altered byte is found."""

import random
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from server.record.book_of_lines import Record
from server.record.files import Files
from server.record.lines import HOUSE
from server.settings import Settings
from server.upkeep import drill as drilling
from server.upkeep.backing_up import NoBackupYet, back_up, drill_newest
from server.upkeep.backup_log import read_backup_log
from server.upkeep.drill import drill
from server.upkeep.manifest import NAME, BackupDamaged, describe, read_manifest, written
from server.upkeep.restore import FolderNotEmpty, restore
from server.upkeep.shelf import backups_on
from tests.record.fixtures import append
from tests.record.sample_lines import new_entry
from tests.upkeep.shop_data import HOUR, NOW


@pytest.fixture
def backup(settings: Settings) -> Path:
    """A backup on the shelf."""
    return back_up(settings, NOW).folder


def flip(file: Path, at: int) -> None:
    content = bytearray(file.read_bytes())
    content[at] ^= 1
    file.write_bytes(content)


def test_restored_it_is_what_it_was(settings: Settings, backup: Path, tmp_path: Path):
    """In an empty folder lie the record, its key and the photos, byte for byte."""
    restore(backup, tmp_path / "new")
    for name in ("photos/a.jpg", "record.key"):
        assert (tmp_path / "new" / name).read_bytes() == (settings.data_folder / name).read_bytes()
    assert (tmp_path / "new" / "record.sqlite3").read_bytes() == (backup / "record.sqlite3").read_bytes()


def test_nothing_is_written_over(backup: Path, tmp_path: Path):
    """A folder with anything in it, and a file, are refused and stay as they are."""
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "strawline.toml").write_text("mine")
    (tmp_path / "file").write_text("mine")
    for place in ("full", "file"):
        with pytest.raises(FolderNotEmpty, match="new or empty"):
            restore(backup, tmp_path / place)
    assert [path.name for path in (tmp_path / "full").iterdir()] == ["strawline.toml"]


def test_a_good_backup_passes_the_drill(settings: Settings, backup: Path):
    """The root recomputed from the restored lines is the one the backup names, which is noted with its age."""
    drilled = drill_newest(settings, NOW + HOUR)
    assert (drilled.odd, drilled.lines, drilled.root) == ((), 22, read_manifest(backup).root)
    log = read_backup_log(settings.data_folder)
    assert (log.proved, log.proved_made_ms, log.proved_ms) == (backup.name, NOW, NOW + HOUR)
    assert [path for path in settings.shelf.iterdir() if path != backup] == []


def test_a_flipped_bit_anywhere_is_found(backup: Path):
    """One bit flipped at sixty places drawn over all files, the manifest among them: each drill is red."""
    dice = random.Random(20250318)
    files = sorted(path for path in backup.rglob("*") if path.is_file())
    for number in range(60):
        file = files[number % len(files)]
        at = dice.randrange(file.stat().st_size)
        flip(file, at)
        assert drill(backup).odd, f"{file.name} at {at}"
        flip(file, at)
    assert drill(backup).odd == ()


@pytest.mark.parametrize("deed", ["taken away", "added"])
def test_a_file_too_few_or_too_many_is_found(backup: Path, deed: str, tmp_path: Path):
    """A file that was taken away or put in is named, and nothing is restored."""
    photo = backup / "beside" / "photos" / "a.jpg"
    if deed == "added":
        (photo.parent / "b.jpg").write_bytes(b"x")
    else:
        photo.unlink()
    with pytest.raises(BackupDamaged, match=r"photos/[ab]\.jpg"):
        restore(backup, tmp_path / "new")
    assert not (tmp_path / "new").exists()


def rewritten(backup: Path, statement: str) -> None:
    """Alter the record in a backup, and its manifest so that every digest fits again."""
    with closing(sqlite3.connect(backup / "record.sqlite3")) as other:
        for (name,) in other.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
            other.execute(f"DROP TRIGGER {name}")
        other.execute(statement)
        other.commit()
    manifest = read_manifest(backup)
    files = tuple(describe(backup / each.path, backup) for each in manifest.files)
    (backup / NAME).write_bytes(written(manifest._replace(files=files)))


@pytest.mark.parametrize(
    "statement",
    ["UPDATE line SET body = replace(body, '41', '14') WHERE position = 5", "DELETE FROM line WHERE position = 22"],
)
def test_an_altered_record_is_found_behind_digests_that_fit(backup: Path, statement: str):
    """Somebody who makes every digest fit again is found by recomputing leaves, chains and root."""
    rewritten(backup, statement)
    assert drill(backup).odd


def test_a_failed_drill_is_noted_and_the_last_good_one_kept(settings: Settings, backup: Path):
    """After a red drill the log names what failed; the last backup proved good is never let go."""
    drill_newest(settings, NOW)
    for number in range(1, 17):
        back_up(settings, NOW + number * HOUR)
    flip(backups_on(settings.shelf)[-1] / "record.sqlite3", 5000)
    assert drill_newest(settings, NOW + 20 * HOUR).odd
    log = read_backup_log(settings.data_folder)
    assert log.proved == backup.name
    assert "record.sqlite3" in (log.drill_failed or "")
    assert backup in backups_on(settings.shelf)
    assert len(backups_on(settings.shelf)) == settings.backup_keep + 1


def test_without_a_backup_there_is_no_drill(settings: Settings):
    """With an empty shelf it says what to do."""
    with pytest.raises(NoBackupYet, match="strawline backup"):
        drill_newest(settings, NOW)


@pytest.mark.parametrize("deed", ["is missing", "has other bytes"])
def test_a_file_lost_before_the_backup_is_found(settings: Settings, deed: str):
    """A backup of a folder in which a kept file was lost or damaged is whole in itself; its drill names the line."""
    named = Files(settings.data_folder).keep(b"recording")
    record = Record.open(settings.database_url, settings.data_folder)
    trace = new_entry(90, "trace", of="X", sha256=named, instrument="PS-1")
    append(record, trace._replace(device=HOUSE, boot=None, seq=None, mono_ms=None, device_ms=None))
    record.close()
    assert drill(back_up(settings, NOW).folder).odd == ()
    kept = settings.data_folder / "record" / "files" / named[:2] / named
    kept.unlink() if deed == "is missing" else kept.write_bytes(b"reading!!")
    (said,) = drill(back_up(settings, NOW + HOUR).folder).odd
    assert f"id TAB-1:b1:90: the file {named} {deed}" in said


def test_stopped_by_hand_no_half_is_left(settings: Settings, backup: Path, tmp_path: Path):
    """Broken off while it copies, restoring leaves no folder and a drill no copy; the backup is as it was."""

    def stop(doing: str, _: int, __: int) -> None:
        if doing.endswith("copied"):
            raise KeyboardInterrupt

    for breaking_off in (lambda: restore(backup, tmp_path / "new", stop), lambda: drill(backup, stop)):
        with pytest.raises(KeyboardInterrupt):
            breaking_off()
    assert not (tmp_path / "new").exists()
    assert list(settings.shelf.iterdir()) == [backup]
    assert drill(backup).odd == ()


def test_a_drill_never_fills_the_disk(backup: Path, monkeypatch: pytest.MonkeyPatch):
    """Where the copy restored aside would leave too little room for the record, none is made, and it is said."""
    monkeypatch.setattr(drilling, "free_bytes", lambda _: 50_000_000)
    monkeypatch.setattr(drilling, "restore", None)
    assert "too little room" in drill(backup).odd[0]
