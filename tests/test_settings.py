"""Settings come from the environment, then the file, then a default, and say which."""

from pathlib import Path

import pytest

from server.settings import BadSetting, read_settings


def test_environment_wins_over_file(tmp_path: Path):
    """A variable in the environment stands above the same setting in the file, and the source is told."""
    (tmp_path / "strawline.toml").write_text("port = 9001\nhost = '0.0.0.0'\n")

    settings = read_settings(tmp_path, {"STRAWLINE_PORT": "9002"})

    assert (settings.port, settings.host) == (9002, "0.0.0.0")
    assert settings.came_from["port"] == "environment variable STRAWLINE_PORT"
    assert settings.came_from["host"] == "file strawline.toml"
    assert settings.came_from["session_hours"] == "default"


@pytest.mark.parametrize(
    ("text", "complaint"),
    [("port = 'often'", "port in strawline.toml is 'often'; a whole number is expected"),
     ("port = 99999", "port in strawline.toml is 99999; 65535 or less is expected"),
     ("prot = 1", "'prot' is no setting"),
     ("port = ", "mend that line")],
)
def test_a_bad_setting_is_named(tmp_path: Path, text: str, complaint: str):
    """A setting that cannot be used is named with its value and what is expected."""
    (tmp_path / "strawline.toml").write_text(text)

    with pytest.raises(BadSetting, match=complaint):
        read_settings(tmp_path, {})


def test_the_database_lies_in_the_data_folder(tmp_path: Path):
    """Without another word the record is a SQLite file in the data folder."""
    assert read_settings(tmp_path, {}).database_url == f"sqlite:///{tmp_path}/record.sqlite3"
