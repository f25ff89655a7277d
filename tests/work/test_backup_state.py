"""The owner's page says how old the last proved backup is, and names what is wrong in words that say what to do."""

from dataclasses import replace
from pathlib import Path

import pytest

from server.settings import Settings
from server.upkeep.backing_up import back_up, drill_newest
from server.upkeep.backup_log import BackupLog, keep_backup_log
from server.work.backup_state import backup_state
from tests.upkeep.shop_data import HOUR, NOW, make_data


def test_a_proved_backup_is_told_with_its_age(tmp_path: Path):
    """Seven hours after it was made, it says so, with how many lines it holds."""
    settings = make_data(tmp_path / "data")
    back_up(settings, NOW)
    drill_newest(settings, NOW)
    state = backup_state(settings, NOW + 7 * HOUR)
    assert state.good
    assert "7 hours ago was restored and recomputed: 22 lines" in state.sentence
    assert (state.made_ms, state.proved_ms) == (NOW, NOW)


@pytest.mark.parametrize(
    ("log", "hours", "said"),
    [
        (BackupLog(), 0, "No backup was proved yet"),
        (BackupLog(made_ms=NOW, proved_made_ms=NOW, proved_ms=NOW), 72, "is 3 days old"),
        (BackupLog(failed="no room"), 0, "failed: no room"),
        (BackupLog(proved_made_ms=NOW, drill_failed="b: the file x"), 0, "could not be proved: b: the file x"),
    ],
)
def test_what_is_wrong_is_named(tmp_path: Path, log: BackupLog, hours: int, said: str):
    """None yet, too old, failed, or not provable: each is told apart, and none of them is good."""
    keep_backup_log(tmp_path, log)
    state = backup_state(Settings(data_folder=tmp_path), NOW + hours * HOUR)
    assert not state.good
    assert said in state.sentence


def test_rarer_backups_are_late_later(tmp_path: Path):
    """Where backups are made every three days, one of two days is good."""
    keep_backup_log(tmp_path, BackupLog(made_ms=NOW, proved_made_ms=NOW, proved_ms=NOW))
    settings = Settings(data_folder=tmp_path)
    assert not backup_state(settings, NOW + 48 * HOUR).good
    assert backup_state(replace(settings, backup_every_hours=72), NOW + 48 * HOUR).good
