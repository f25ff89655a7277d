"""The environment is made once, completed when a list changes, and made anew for another place or Python."""

import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from server.door import environment
from server.door.installing import CannotInstall


@dataclass
class Shelf:
    """Lists to install from, and what was installed."""

    folder: Path
    installed: list[str] = field(default_factory=list)
    broken: bool = False

    def list_file(self, name: str) -> Path:
        return self.folder / f"locked_{name}.txt"

    def install(self, python: Path, locked: Path, log: Path) -> None:
        if self.broken:
            raise CannotInstall("no network")
        self.installed.append(locked.stem)


@pytest.fixture
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Shelf:
    shelf = Shelf(tmp_path / "lists")
    shelf.folder.mkdir()
    for name in ("run", "test"):
        shelf.list_file(name).write_text(f"{name}==1\n")
    monkeypatch.setattr(environment, "_list_file", shelf.list_file)
    monkeypatch.setattr(environment, "install", shelf.install)
    return shelf


@pytest.fixture
def house(tmp_path: Path) -> Path:
    house = tmp_path / "a house"
    (house / "server").mkdir(parents=True)
    (house / "server" / "__init__.py").write_text("WHERE = __file__\n")
    (house / "server" / "__main__.py").write_text("import sys\nprint('at the door of', sys.argv[1])\nsys.exit(7)\n")
    return house


def test_it_is_made_once(shelf: Shelf, house: Path) -> None:
    """The first call makes it and installs the list; the second does nothing."""
    for _ in range(2):
        python = environment.make_stand(("run",), house)
    assert python.exists()
    assert shelf.installed == ["locked_run"]


def test_the_tests_lists_are_laid_on_top(shelf: Shelf, house: Path) -> None:
    """After a run list, asking for both installs the second alone."""
    environment.make_stand(("run",), house)
    environment.make_stand(("run", "test"), house)
    assert shelf.installed == ["locked_run", "locked_test"]


def test_its_python_finds_the_house_from_anywhere(shelf: Shelf, house: Path, tmp_path: Path) -> None:
    """The environment's python imports the server from the house, whatever the folder it is started in."""
    python = environment.make_stand(("run",), house)
    command = [str(python), "-I", "-c", "import server; print(server.WHERE)"]
    said = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=True).stdout
    assert Path(said.strip()) == house / "server" / "__init__.py"


def test_it_has_the_command(shelf: Shelf, house: Path) -> None:
    """The environment has a `strawline` that goes through the door with what was typed and gives back its exit code."""
    environment.make_stand(("run",), house)
    done = subprocess.run([house / ".venv" / "bin" / "strawline", "a house"], capture_output=True, text=True)
    assert (done.stdout, done.returncode) == ("at the door of a house\n", 7)


def test_a_changed_list_is_installed_again(shelf: Shelf, house: Path) -> None:
    """When one list changes that list is installed, into the environment that stands."""
    environment.make_stand(("run", "test"), house)
    kept = house / ".venv" / "kept"
    kept.write_text("")
    shelf.list_file("test").write_text("test==2\n")
    environment.make_stand(("run", "test"), house)
    assert shelf.installed == ["locked_run", "locked_test", "locked_test"]
    assert kept.exists()


def test_a_moved_house_makes_it_anew(shelf: Shelf, house: Path) -> None:
    """An environment that came along from another folder is thrown away, for it points at that folder."""
    environment.make_stand(("run",), house)
    moved = house.rename(house.with_name("moved"))
    (moved / ".venv" / "old").write_text("")
    environment.make_stand(("run",), moved)
    assert shelf.installed == ["locked_run", "locked_run"]
    assert not (moved / ".venv" / "old").exists()


def test_another_python_makes_it_anew(shelf: Shelf, house: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An environment made by another Python version is made anew."""
    environment.make_stand(("run",), house)
    monkeypatch.setattr(sys, "version", "3.14.0 of another day")
    environment.make_stand(("run",), house)
    assert shelf.installed == ["locked_run", "locked_run"]


def test_a_failed_installation_is_tried_again(shelf: Shelf, house: Path) -> None:
    """What failed leaves no stamp, so the next call installs."""
    shelf.broken = True
    with pytest.raises(CannotInstall):
        environment.make_stand(("run",), house)
    shelf.broken = False
    environment.make_stand(("run",), house)
    assert shelf.installed == ["locked_run"]


def test_two_at_once_install_once(shelf: Shelf, house: Path) -> None:
    """Of two commands started together one installs and the other waits for it."""
    with ThreadPoolExecutor(2) as pool:
        list(pool.map(lambda _: environment.make_stand(("run",), house), range(2)))
    assert shelf.installed == ["locked_run"]


def test_inside_our_own_environment_the_stamps_decide(
    shelf: Shelf, house: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Running in the house's own environment, a command is at home only when its lists are installed."""
    environment.make_stand(("run",), house)
    monkeypatch.setattr(sys, "prefix", str(house / ".venv"))
    assert environment.inside(("run",), house)
    assert not environment.inside(("run", "test"), house)
    shelf.list_file("run").write_text("run==2\n")
    assert not environment.inside(("run",), house)


def test_in_somebodys_environment_the_packages_decide(house: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """In an environment somebody else made, having the packages is enough; outside of any it is not."""
    monkeypatch.setattr(sys, "prefix", "/srv/theirs")
    assert environment.inside(("run", "test"), house)
    monkeypatch.setattr(environment, "find_spec", lambda name: None if name == "pytest" else object())
    assert environment.inside(("run",), house)
    assert not environment.inside(("run", "test"), house)
    monkeypatch.setattr(sys, "prefix", sys.base_prefix)
    assert not environment.inside(("run",), house)
