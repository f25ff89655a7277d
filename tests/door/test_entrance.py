"""What a person meets who types a command."""

import os
import re
import resource
import subprocess
import sys
from pathlib import Path

import pytest

from server.__main__ import main
from server.door import entrance
from server.door.commands import Command
from server.door.environment import ROOT
from server.door.installing import CannotInstall

HEAVY = {"fastapi", "starlette", "sqlalchemy", "sqlmodel", "pydantic", "numpy", "scipy", "jinja2", "alembic"}
MOST_SECONDS_FOR_HELP = 0.3


class Gone(Exception):
    """Stands for the end of this process, which becomes another."""


def recorded_execs(monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, ...]]:
    became: list[tuple[str, ...]] = []

    def become(program: Path, arguments: list[str]) -> None:
        became.append(tuple(arguments))
        raise Gone

    monkeypatch.setattr(os, "execv", become)
    return became


def modules_imported_by(*arguments: str) -> set[str]:
    command = [sys.executable, "-X", "importtime", *arguments]
    said = subprocess.run(command, capture_output=True, text=True, check=True).stderr
    return {line.rpartition("|")[2].strip().partition(".")[0] for line in said.splitlines() if "import time" in line}


def seconds_for_help() -> float:
    """The processor's own time for it, which does not grow because others work on the same machine."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([sys.executable, "-m", "server", "--help"], capture_output=True, check=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime


def test_help_imports_nothing_heavy() -> None:
    """Asking for help imports neither the web, the tables nor the numbers."""
    assert modules_imported_by("-m", "server", "--help") & HEAVY == set()


def test_a_heavy_import_is_noticed() -> None:
    """Control: the same look at a process that does import one of them reports it."""
    assert modules_imported_by("-c", "import jinja2") & HEAVY == {"jinja2"}


def test_help_is_there_at_once() -> None:
    """Help takes under 0.3 s of the processor's time, in the best of five tries."""
    assert min(seconds_for_help() for _ in range(5)) < MOST_SECONDS_FOR_HELP


@pytest.mark.parametrize("typed", [[], ["--help"], ["-h"], ["help"]])
def test_nothing_typed_or_help_says_what_there_is(typed: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """Without a command, or asked for help, the commands are listed and all is well."""
    assert main(typed) == 0
    assert re.search(r"^  test +\S", capsys.readouterr().out, re.M)


def test_an_unknown_command_is_named_with_what_is_expected(capsys: pytest.CaptureFixture[str]) -> None:
    """A mistyped command is quoted back in one line with the ones there are, and the exit code is 2."""
    assert main(["tset"]) == 2
    (line,) = capsys.readouterr().err.splitlines()
    assert "'tset'" in line
    assert re.search(r"expected one of: .*\btest\b", line)


@pytest.mark.parametrize("typed", [["init"], ["owner", "--data"], ["serve", "--data"]])
def test_a_place_that_cannot_be_is_told_in_one_line(
    typed: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A folder below a file is named with what to do, and the exit code is 2; there is no traceback."""
    (tmp_path / "file").touch()
    assert main([*typed, str(tmp_path / "file" / "folder")]) == 2
    (line,) = capsys.readouterr().err.splitlines()
    assert "Not a directory; see that it is there" in line


def test_an_old_python_is_told_in_one_line(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """Python 3.10 gets one line with its own version and the one that is needed, not a traceback."""
    monkeypatch.setattr(sys, "version_info", (3, 10, 12))
    assert main(["demo"]) == 2
    (line,) = capsys.readouterr().err.splitlines()
    assert "3.11 or newer" in line
    assert "3.10.12" in line


def test_a_failed_installation_is_told_without_a_traceback(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """When the environment cannot be completed, the reason is printed and the exit code is 1."""

    def fail(lists: tuple[str, ...]) -> Path:
        raise CannotInstall("no network")

    monkeypatch.setattr(entrance, "inside", lambda lists: False)
    monkeypatch.setattr(entrance, "make_stand", fail)
    assert main(["test"]) == 1
    assert capsys.readouterr().err == "strawline: no network\n"


def test_outside_the_environment_the_command_goes_on_inside(monkeypatch: pytest.MonkeyPatch) -> None:
    """The process becomes the environment's python, with the same arguments and no folder that happens to be here."""
    monkeypatch.setattr(entrance, "inside", lambda lists: False)
    monkeypatch.setattr(entrance, "make_stand", lambda lists: Path("there") / "-".join(lists) / "python")
    became = recorded_execs(monkeypatch)
    with pytest.raises(Gone):
        main(["test", "-x"])
    assert became == [("there/run-test/python", "-P", "-m", "server", "test", "-x")]


def test_inside_the_environment_the_command_is_done(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The command's module is imported only now, gets the arguments after its name, and its answer is the exit code."""
    (tmp_path / "seldom_typed.py").write_text('"""X."""\ndef run(arguments):\n    return len(arguments)\n')
    monkeypatch.syspath_prepend(str(tmp_path))
    monkeypatch.setattr(entrance, "inside", lambda lists: True)
    monkeypatch.setattr(entrance, "all_commands", lambda: [Command("seldom", "seldom_typed", tmp_path)])
    assert main(["seldom", "a", "b"]) == 2
    assert "seldom_typed" in sys.modules


def test_the_tests_are_run_by_pytest_from_the_root(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """`test` becomes pytest with the arguments given, in the project's folder wherever it was typed."""
    monkeypatch.chdir(tmp_path)
    became = recorded_execs(monkeypatch)
    with pytest.raises(Gone):
        entrance.run_tests(["-x"])
    assert became == [(sys.executable, "-m", "pytest", "-q", "-x")]
    assert Path.cwd() == ROOT


@pytest.mark.parametrize(("typed", "says"), [("backup", "nothing half made is left"), ("rules", "begin anew")])
def test_stopped_by_hand_one_sentence_says_what_is_left(
    typed: str, says: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Ctrl-C in a command gives no traceback: its name and what became of its work, and the exit code is 130."""

    def stopped(_: list[str]) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr(f"server.commands.{typed}.run", stopped)
    assert main([typed]) == 130
    said = capsys.readouterr().err.strip()
    assert said.startswith(f"strawline: {typed} was stopped. ")
    assert says in said
    assert "\n" not in said
