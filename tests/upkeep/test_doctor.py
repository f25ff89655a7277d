"""The doctor names what is wrong with disk, record, keys, certificate and backups, and passes what is well."""

import os
import shutil
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from server.settings import Settings
from server.upkeep import disk
from server.upkeep.backing_up import back_up, drill_newest
from server.upkeep.certificate import make_certificate
from server.upkeep.certificate_names import read_names
from server.upkeep.doctor import examine
from server.upkeep.parts import FAILING, FINE, LOOK, Part
from server.upkeep.restore import restore
from tests.record.tampering import tamper
from tests.upkeep.shop_data import HOUR, NOW, make_data

DAY = 24 * HOUR
_TODAY = round(datetime.now(UTC).timestamp() * 1000)


def found(settings: Settings, now_ms: int = NOW, took_s: float = 0.003) -> dict[str, Part]:
    return {part.name: part for part in examine(settings, now_ms, lambda _: took_s)}


def test_a_shop_in_order(settings: Settings):
    """Record, room, disk, keys and certificate of an ordinary shop are fine."""
    states = {name: part.state for name, part in found(settings).items()}
    expected = dict.fromkeys(("record", "keeping", "secrets", "certificate"), FINE)
    assert expected.items() <= states.items()


@pytest.mark.parametrize(("took_s", "state"), [(0.00005, LOOK), (0.0019, FINE), (0.012, FINE), (0.2, LOOK)])
def test_a_disk_that_keeps_implausibly_fast_is_named(settings: Settings, took_s: float, state: str):
    """Quicker than flash can be, or slower than a writer should wait: somebody should look; a real disk is fine."""
    part = found(settings, took_s=took_s)["keeping"]
    assert part.state == state
    assert f"{1000 * took_s:.2f} ms" in part.sentence
    assert ("pull the plug" in part.sentence) is (took_s < 0.0002)


def test_the_disk_is_really_asked(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """The time told is that of the sync call itself, and nothing is left behind."""
    clock = [0.0]
    monkeypatch.setattr("server.upkeep.disk.time.perf_counter", lambda: clock[0])
    monkeypatch.setattr(os, "fdatasync", lambda _: clock.__setitem__(0, clock[0] + 0.01))
    assert disk.sync_seconds(tmp_path, times=3) == pytest.approx(0.01)
    assert list(tmp_path.iterdir()) == []


def test_an_altered_record_fails(settings: Settings):
    """A checkpoint whose tree does not fit any more is named."""
    tamper(settings.data_folder / "record.sqlite3", "UPDATE checkpoint SET root = zeroblob(32)")
    part = found(settings)["record"]
    assert part.state == FAILING
    assert "another root" in part.sentence


def test_lost_guards_fail(settings: Settings):
    """A record whose lines could be changed is named."""
    file = settings.data_folder / "record.sqlite3"
    tamper(file, "UPDATE line SET device = device", put_guards_back=False)
    assert "guard line_no_update is missing" in found(settings)["record"].sentence


def test_no_record_fails(tmp_path: Path):
    """An empty folder is told from one with a record."""
    part = found(Settings(data_folder=tmp_path))["record"]
    assert (part.state, "there is no record" in part.sentence) == (FAILING, True)


def test_a_key_that_others_can_read_fails(settings: Settings):
    """A secret file that is open to others on the machine is named with the command that mends it."""
    key = settings.data_folder / "record.key"
    key.chmod(0o640)
    part = found(settings)["secrets"]
    assert part.state == FAILING
    assert f"chmod 600 {key}" in part.sentence


def test_a_full_disk_fails(settings: Settings, monkeypatch: pytest.MonkeyPatch):
    """Room is fine, scarce, or too little."""
    states = []
    for free in (5_000_000_000, 500_000_000, 5_000_000):
        monkeypatch.setattr(shutil, "disk_usage", lambda _, free=free: shutil._ntuple_diskusage(free, 0, free))
        states.append(found(settings)["room"].state)
    assert states == [FINE, LOOK, FAILING]


def test_the_certificates_end_is_told(settings: Settings):
    """Well before its end it is fine, in the last month to be looked at, afterwards failing."""
    make_certificate(settings.data_folder, read_names(["weldlog.local"], []))
    states = [found(settings, _TODAY + days * DAY)["certificate"].state for days in (1, 380, 400)]
    assert states == [FINE, LOOK, FAILING]


def test_a_host_without_certificate_fails(settings: Settings):
    """Set to serve others, without a certificate, nothing is served."""
    assert found(replace(settings, host="0.0.0.0"))["certificate"].state == FAILING


def test_the_age_of_the_proved_backup_is_told(settings: Settings, tmp_path: Path):
    """None proved: to be looked at; on the record's own disk as well; a failed one is failing."""
    assert found(settings)["backups"].state == LOOK
    back_up(settings, NOW)
    drill_newest(settings, NOW)
    assert "record's own disk" in found(settings, NOW + 3 * HOUR)["backups"].sentence
    with (next(settings.shelf.glob("backup-*")) / "record.sqlite3").open("r+b") as file:
        file.seek(100)
        file.write(b"\xff")
    drill_newest(settings, NOW)
    assert found(settings)["backups"].state == FAILING


def test_a_copy_is_told_from_a_record(settings: Settings, tmp_path: Path):
    """A restored copy says that it takes no entries yet."""
    restore(back_up(settings, NOW).folder, tmp_path / "copy")
    part = found(Settings(data_folder=tmp_path / "copy"))["record"]
    assert (part.state, "strawline continue" in part.sentence) == (LOOK, True)


def test_the_clock_is_compared_with_the_record(tmp_path: Path):
    """A machine whose clock stands before the last entry's arrival is told so."""
    settings = make_data(tmp_path / "other")
    assert "behind the last entry" in found(settings, NOW - HOUR)["clock"].sentence
