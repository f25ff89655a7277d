"""The command that shows the settings: each value with its source, and no password."""

import json
from pathlib import Path

import pytest

from server.commands.settings import run


def test_each_value_is_shown_with_its_source(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
):
    """From the environment, from the file, by default: every setting says where it came from."""
    (tmp_path / "strawline.toml").write_text("backup_keep = 3\nbackup_with_key = false\n")
    monkeypatch.setenv("STRAWLINE_PORT", "9002")
    assert run(["--data", str(tmp_path), "--json"]) == 0
    told = {row["name"]: (row["value"], row["from"]) for row in json.loads(capsys.readouterr().out)}
    assert told["port"] == ("9002", "environment variable STRAWLINE_PORT")
    assert told["backup_keep"] == ("3", "file strawline.toml")
    assert told["backup_with_key"] == ("no", "file strawline.toml")
    assert told["session_hours"] == ("12", "default")
    assert told["data_folder"] == (str(tmp_path), "the command line")


def test_no_password_is_shown(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]):
    """The database is named, its password is not."""
    monkeypatch.setenv("STRAWLINE_DATABASE", "postgresql+psycopg://shop:opensesame@db/record")
    assert run(["--data", str(tmp_path)]) == 0
    said = capsys.readouterr().out
    assert "postgresql+psycopg://shop:***@db/record" in said
    assert "opensesame" not in said


def test_a_bad_setting_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    """A value that cannot be used gives 2, and names setting, value and what is expected."""
    (tmp_path / "strawline.toml").write_text("backup_keep = 0\n")
    assert run(["--data", str(tmp_path)]) == 2
    assert "backup_keep in strawline.toml is 0; 1 or more is expected" in capsys.readouterr().err
