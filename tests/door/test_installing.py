"""Installing says where its log is, and when it fails why and what to do."""

import shutil
import sys
import venv
from pathlib import Path

import pytest

from server.door import installing
from server.door.installing import CannotInstall, install


@pytest.fixture
def bare_python(tmp_path: Path) -> Path:
    venv.create(tmp_path / "bare", with_pip=False, symlinks=True)
    return tmp_path / "bare" / "bin" / "python"


@pytest.fixture
def no_uv(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shutil, "which", lambda name: None)


def test_a_failure_shows_the_end_of_the_log(bare_python: Path, tmp_path: Path, no_uv: None) -> None:
    """A list pip refuses (here: a package without a hash) gives pip's own last lines, the log's place and advice."""
    locked, log = tmp_path / "locked.txt", tmp_path / "log"
    locked.write_text("segno==1.6.6\n")
    with pytest.raises(CannotInstall) as told:
        install(bare_python, locked, log)
    assert "segno" in str(told.value)
    assert str(log) in str(told.value)
    assert str(told.value).endswith("run it again.")


def test_a_python_without_pip_is_told_in_one_line(
    bare_python: Path, tmp_path: Path, no_uv: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where there is no pip the person is told how to get it, in one line."""
    monkeypatch.setattr(installing, "_python_with_pip", lambda: str(bare_python))
    (tmp_path / "locked.txt").write_text("")
    with pytest.raises(CannotInstall) as told:
        install(bare_python, tmp_path / "locked.txt", tmp_path / "log")
    assert str(told.value) == installing.NO_PIP
    assert "\n" not in installing.NO_PIP


def test_an_empty_list_is_installed_by_the_pip_outside(bare_python: Path, tmp_path: Path, no_uv: None) -> None:
    """An environment without pip is served by the pip of the Python it was made from."""
    (tmp_path / "locked.txt").write_text("")
    install(bare_python, tmp_path / "locked.txt", tmp_path / "log")
    assert (tmp_path / "log").exists()


def test_only_the_end_of_a_long_log_is_shown(tmp_path: Path) -> None:
    """Of a long log the last fifteen lines are shown, and not the one before them."""
    told = installing._why("\n".join(f"line {n}." for n in range(100)), tmp_path)
    assert "line 85." in told
    assert "line 84." not in told


def test_uv_is_used_when_it_is_there(monkeypatch: pytest.MonkeyPatch) -> None:
    """With uv on the PATH the list goes to uv, hashes required, for the environment's python."""
    monkeypatch.setattr(shutil, "which", lambda name: f"/there/{name}")
    command = installing._installer(Path("there/python"), Path("locked.txt"))
    assert command[:5] == ["/there/uv", "pip", "install", "--python", "there/python"]
    assert {"--require-hashes", "--no-deps"} <= set(command)


def test_a_python_with_its_own_pip_uses_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """Pip is taken where the running Python has it, else from the Python behind the environment's link."""
    monkeypatch.setattr(installing, "find_spec", lambda name: object())
    assert installing._python_with_pip() == sys.executable
    monkeypatch.setattr(installing, "find_spec", lambda name: None)
    assert installing._python_with_pip() == str(Path(sys.executable).resolve())
