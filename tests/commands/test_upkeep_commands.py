"""The commands for backups, certificate and doctor: what they say, and what they give back to whoever called them."""

import importlib
import json
import os
from pathlib import Path

import pytest

from server.settings import Settings
from tests.upkeep.shop_data import add, make_data

Said = pytest.CaptureFixture[str]


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    """A data folder with a small record in it."""
    return make_data(tmp_path / "data")


def typed(command: str, *arguments: object) -> int:
    module = importlib.import_module(f"server.commands.{command}")
    return int(module.run([str(each) for each in arguments]))


def test_from_backup_to_a_record_that_goes_on(settings: Settings, tmp_path: Path, capsys: Said):
    """Backup, drill, restore, continue: four commands, and the copy goes on as the record."""
    card = tmp_path / "card.txt"
    card.write_bytes(add(settings, 100))
    data, copy = settings.data_folder, tmp_path / "copy"
    assert typed("backup", "--data", data) == 0
    assert typed("drill", "--data", data) == 0
    assert "24 lines restored and recomputed" in capsys.readouterr().out
    (backup,) = settings.shelf.iterdir()
    assert typed("restore", backup, copy) == 0
    assert "takes no entries yet" in capsys.readouterr().out
    assert typed("continue_", "--data", copy, "--by", "P1") == 2
    assert "one of both" in capsys.readouterr().err
    assert typed("continue_", "--data", copy, "--by", "P1", "--checkpoint", card) == 0
    assert "hand this checkpoint out" in capsys.readouterr().out
    assert typed("check_record", "--data", copy, "--outside", card) == 0


def test_a_mistyped_folder_is_not_made(tmp_path: Path, capsys: Said):
    """A backup of a folder that is not there names it, and leaves nothing behind."""
    assert typed("backup", "--data", tmp_path / "dta") == 2
    assert "dta is no folder; name the data folder with --data" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_a_red_drill_gives_one(settings: Settings, capsys: Said):
    """An altered backup is named and the command fails; with none at all it gives 2."""
    assert typed("drill", "--data", settings.data_folder) == 2
    typed("backup", "--data", settings.data_folder)
    (backup,) = settings.shelf.iterdir()
    (backup / "beside" / "record.key").write_text("x")
    assert typed("drill", "--data", settings.data_folder) == 1
    assert "cannot be relied on" in capsys.readouterr().out


def test_a_folder_in_use_is_left_alone(settings: Settings, capsys: Said):
    """Restoring over a data folder is refused."""
    typed("backup", "--data", settings.data_folder)
    (backup,) = settings.shelf.iterdir()
    assert typed("restore", backup, settings.data_folder) == 2
    assert "new or empty" in capsys.readouterr().err


def test_another_database_in_the_settings_is_warned_of(settings: Settings, tmp_path: Path, capsys: Said):
    """A restored settings file that points to another database is named, since the copy would not be used."""
    (settings.data_folder / "strawline.toml").write_text(f'database = "sqlite:///{settings.data_folder}/record.sqlite3"')
    typed("backup", "--data", settings.data_folder)
    (backup,) = settings.shelf.iterdir()
    assert typed("restore", backup, tmp_path / "copy") == 0
    assert "names another database" in capsys.readouterr().out


def test_the_certificate_is_told(tmp_path: Path, capsys: Said):
    """Names, end, fingerprint and the sheet are told; made again without a name, it is for the same names."""
    assert typed("certificate", "--data", tmp_path, "--name", "weldlog.local", "--address", "192.168.1.20") == 0
    first = capsys.readouterr().out
    assert "certificate for weldlog.local, localhost, 192.168.1.20" in first
    assert (tmp_path / "certificate" / "install-on-a-tablet.html").exists()
    assert typed("certificate", "--data", tmp_path) == 0
    assert capsys.readouterr().out == first
    assert typed("certificate", "--data", tmp_path, "--name", "other.local") == 2
    assert "--new-authority" in capsys.readouterr().err


def test_the_code_is_shown_and_the_authority_handed_out(
    tmp_path: Path, capsys: Said, monkeypatch: pytest.MonkeyPatch
):
    """With --hand-out the code and the address stand on the screen, and it ends by itself."""
    monkeypatch.setenv("STRAWLINE_PORT", str(20_000 + os.getpid() % 10_000))
    shown = ("--address", "192.168.1.20", "--hand-out", "--minutes", "0.001")
    assert typed("certificate", "--data", tmp_path, *shown) == 0
    said = capsys.readouterr().out
    assert "http://192.168.1.20:" in said
    assert "█" in said


def test_the_doctor_speaks_to_people_and_programs(settings: Settings, tmp_path: Path, capsys: Said):
    """One line for each thing, the same as JSON; 1 where something has to be mended, 2 where there is no folder."""
    assert typed("doctor", "--data", settings.data_folder) == 0
    said = capsys.readouterr().out.splitlines()
    assert typed("doctor", "--data", settings.data_folder, "--json") == 0
    assert [part["name"] for part in json.loads(capsys.readouterr().out)] == [line.split()[1] for line in said]
    (settings.data_folder / "record.key").chmod(0o644)
    assert typed("doctor", "--data", settings.data_folder) == 1
    assert typed("doctor", "--data", tmp_path / "nowhere") == 2


def test_serving_others_without_a_certificate_is_refused(
    settings: Settings, monkeypatch: pytest.MonkeyPatch, capsys: Said
):
    """Before anything is opened the command says what is missing and gives 2."""
    monkeypatch.setenv("STRAWLINE_HOST", "0.0.0.0")
    assert typed("serve", "--data", settings.data_folder) == 2
    assert "strawline certificate" in capsys.readouterr().err
