"""A backup appears whole or not at all, holds all it takes to go on, and is made while the service goes on."""

from dataclasses import replace
from pathlib import Path

import pytest

from server.record import copying
from server.record.book_of_lines import Record
from server.settings import Settings
from server.upkeep import backup
from server.upkeep.backup import BESIDE, CannotBackUp, make_backup
from server.upkeep.drill import drill
from server.upkeep.manifest import read_manifest
from server.upkeep.shelf import held
from tests.record.fixtures import append
from tests.record.sample_lines import new_entry
from tests.upkeep.shop_data import NOW, add


def backed_up(settings: Settings, now_ms: int = NOW, *, with_key: bool = True) -> Path:
    shelf = settings.shelf
    return make_backup(settings.database_url, settings.data_folder, shelf, now_ms, with_key=with_key).folder


def test_it_holds_the_record_and_what_lies_beside_it(settings: Settings):
    """The record, its key, the photos and the settings file are in it; the database's own further files are not."""
    (settings.data_folder / "strawline.toml").write_text("port = 9001\n")
    (settings.data_folder / "record-before-x.sqlite3").write_text("an older copy")
    folder = backed_up(settings)
    names = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}
    beside = {f"{BESIDE}/{name}" for name in ("record.key", "record.pepper", "strawline.toml", "photos/a.jpg")}
    assert names == {"record.sqlite3", "manifest.json"} | beside


def test_it_says_how_far_it_reaches(settings: Settings):
    """Lines, checkpoint and key are those of the record when it was made."""
    note = add(settings, 100)
    manifest = read_manifest(backed_up(settings))
    assert (manifest.lines, manifest.checkpoint) == (24, note.decode())
    assert manifest.made == "2025-03-18T12:40:00.000Z"
    assert len(manifest.keys) == 1


def test_only_its_owner_can_look_into_it(settings: Settings):
    """Nobody else on the machine can open a backup, which holds the record's key."""
    folder = backed_up(settings)
    assert [oct(path.stat().st_mode & 0o777) for path in (settings.shelf, folder)] == ["0o700", "0o700"]
    assert not (folder / BESIDE / "record.key").stat().st_mode & 0o077


def test_the_key_can_be_left_out(settings: Settings):
    """Asked for without it, the backup holds no secret key and no pepper, and still says by which key it is known."""
    folder = backed_up(settings, with_key=False)
    assert not [*folder.rglob("record.key*"), *folder.rglob("record.pepper")]
    assert len(read_manifest(folder).keys) == 1


def test_a_file_that_stays_the_same_is_kept_once(settings: Settings):
    """The second backup shares an unchanged photo with the first; a changed file is its own."""
    first = backed_up(settings)
    second = backed_up(settings, NOW + 1000)
    photo = Path(BESIDE, "photos", "a.jpg")
    assert (first / photo).samefile(second / photo)
    (settings.data_folder / "photos" / "a.jpg").write_bytes(b"another" * 100)
    third = backed_up(settings, NOW + 2000)
    assert (third / photo).read_bytes() == b"another" * 100
    assert (second / photo).read_bytes() == b"picture" * 100


def test_it_is_made_while_the_record_is_open(settings: Settings):
    """With the service's writer at work it holds every line answered before, and the writer goes on."""
    record = Record.open(settings.database_url, settings.data_folder)
    append(record, new_entry(200))
    lines = read_manifest(backed_up(settings)).lines
    assert append(record, new_entry(201))[0].position == lines + 1
    record.close()


def test_what_cannot_be_made_leaves_nothing(settings: Settings, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """Broken off at its very last step, nothing that looks like a backup is on the shelf, and it says why."""

    def full(_: object, __: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "rename", full)
    with pytest.raises(CannotBackUp, match="No space left"):
        backed_up(settings)
    assert list(settings.shelf.glob("*")) == []


def test_it_never_fills_the_disk(settings: Settings, monkeypatch: pytest.MonkeyPatch):
    """Where the copy would leave too little room for the record beside it, none is begun."""
    monkeypatch.setattr(backup, "free_bytes", lambda _: 50_000_000)
    with pytest.raises(CannotBackUp, match="too little room"):
        backed_up(settings)
    monkeypatch.setattr(backup, "free_bytes", lambda _: 90_000_000)
    assert backed_up(settings).exists()


def test_without_a_record_it_says_so(settings: Settings, tmp_path: Path):
    """A missing record, and one in PostgreSQL, are refused with what to do instead."""
    with pytest.raises(CannotBackUp, match="no backup was made"):
        backed_up(replace(settings, database=f"sqlite:///{tmp_path}/none.sqlite3"))
    with pytest.raises(CannotBackUp, match="pg_dump"):
        backed_up(replace(settings, database="postgresql+psycopg://shop/record"))


class _Stopped(BaseException):
    """As Ctrl-C is: no error that anybody would catch."""


@pytest.mark.parametrize("at", ["megabytes copied", "leaves of its tree", "megabytes of record.sqlite3 read"])
def test_stopped_by_hand_it_leaves_nothing(settings: Settings, at: str):
    """Broken off while it copies, counts or reads back, no half of it is left on the shelf."""

    def stop(doing: str, _: int, __: int) -> None:
        if doing == at:
            raise _Stopped

    with pytest.raises(_Stopped):
        make_backup(settings.database_url, settings.data_folder, settings.shelf, NOW, say=stop)
    assert list(settings.shelf.iterdir()) == []


def test_what_a_killed_one_left_is_removed(settings: Settings):
    """Halves of a backup and of a drill whose process is gone are removed by the next; one in the making is not."""
    settings.shelf.mkdir()
    for name in (".backup-20250101T000000.000Z.part", ".drill-abc", ".backup-20250102T000000.000Z.part"):
        (settings.shelf / name).mkdir()
        (settings.shelf / name / "record.sqlite3").write_bytes(b"half")
    with held(settings.shelf / name):
        folder = backed_up(settings)
    assert sorted(path.name for path in settings.shelf.iterdir()) == [name, folder.name]


def test_lines_taken_meanwhile_do_not_begin_it_anew(settings: Settings, monkeypatch: pytest.MonkeyPatch):
    """Copied page by page while the service takes a line between any two, it is one state, from before them all."""
    monkeypatch.setattr(copying, "_PAGES_AT_ONCE", 1)
    record = Record.open(settings.database_url, settings.data_folder)
    lines, taken = read_manifest(backed_up(settings)).lines, list[int]()

    def told(doing: str, _: int, __: int) -> None:
        if doing == "megabytes copied" and len(taken) < 20:
            taken.append(append(record, new_entry(300 + len(taken)))[0].position)

    made = make_backup(settings.database_url, settings.data_folder, settings.shelf, NOW + 1, say=told)
    record.close()
    assert (len(taken), made.manifest.lines) == (20, lines)
    assert drill(made.folder).odd == ()
