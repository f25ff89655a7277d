"""Commands that write turn away while a service holds the data folder; those that only read or copy do not."""

import importlib
from pathlib import Path

import pytest

from server.commands import demo, init
from server.commands._demo_shop import MARK
from server.settings import Settings
from server.upkeep.backing_up import back_up
from server.upkeep.one_server import the_one_service
from tests.upkeep.shop_data import NOW, make_data

Said = pytest.CaptureFixture[str]
WRITING = {
    "load": ["SHOP"],
    "rejudge": [],
    "owner": ["--name", "Ada Brown"],
    "continue_": ["--by", "P1", "--none-known"],
    "migrate": [],
    "remove_details": ["C-1", "--by", "P1", "--reason", "asked for"],
    "serve": [],
}
READING: dict[str, list[str]] = {"check_record": [], "backup": [], "drill": [], "doctor": [], "settings": []}


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    """A data folder with a small record and one backup of it."""
    made = make_data(tmp_path / "data")
    back_up(made, NOW)
    return made


def typed(command: str, settings: Settings, arguments: list[str]) -> int:
    module = importlib.import_module(f"server.commands.{command}")
    shop = settings.data_folder.parent / "shop"
    if "SHOP" in arguments and not shop.exists():
        init.run([str(shop)])
    words = [str(shop) if each == "SHOP" else each for each in arguments]
    return int(module.run([*words, "--data", str(settings.data_folder)]))


def in_the_folder(settings: Settings) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in settings.data_folder.iterdir() if path.is_file()}


@pytest.mark.parametrize("command", WRITING)
def test_a_command_that_writes_turns_away(command: str, settings: Settings, capsys: Said):
    """While the folder is held the command gives 2, says to stop the service first, and changes nothing."""
    with the_one_service(settings.data_folder):
        before = in_the_folder(settings)
        assert typed(command, settings, WRITING[command]) == 2
        assert in_the_folder(settings) == before
    said = capsys.readouterr()
    assert "stop that service first" in said.out + said.err


@pytest.mark.parametrize("command", READING)
def test_a_command_that_reads_goes_on(command: str, settings: Settings):
    """Checking, copying and looking are for while the service runs."""
    with the_one_service(settings.data_folder):
        assert typed(command, settings, READING[command]) == 0


@pytest.mark.parametrize("command", ["load", "rejudge", "migrate"])
def test_alone_it_does_its_work(command: str, settings: Settings):
    """Control: with nobody beside it the same command gives 0."""
    assert typed(command, settings, WRITING[command]) == 0


def test_a_demo_being_served_is_not_made_anew(tmp_path: Path, capsys: Said):
    """An older demo's folder that is being served is left as it is, though this program would make it anew."""
    (tmp_path / MARK).write_text('{"key": "older"}')
    (tmp_path / "kept").mkdir()
    with the_one_service(tmp_path):
        assert demo.run(["--data", str(tmp_path), "--only-make"]) == 2
    assert "stop that service first" in capsys.readouterr().err
    assert (tmp_path / "kept").is_dir()
