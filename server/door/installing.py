"""Installs one hash-locked list into an environment, with uv when it is there and pip otherwise."""

import shutil
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path

TAIL_LINES = 15
PIP_OPTIONS = ("-q", "--no-deps", "--require-hashes", "--no-compile", "--disable-pip-version-check")
UV_OPTIONS = ("-q", "--no-deps", "--require-hashes")
NO_PIP = "this Python has no pip; install it (on Debian: apt install python3-pip) or put uv on the PATH, then try again"


class CannotInstall(Exception):
    """The environment could not be completed; the text says why and what to do."""


def install(python: Path, locked: Path, log: Path) -> None:
    """Install the list for that python; what the installer says goes to the log."""
    print(f"strawline: installing {locked.stem} (once; its log is {log})", file=sys.stderr, flush=True)
    with log.open("w") as out:
        done = subprocess.run(_installer(python, locked), stdout=out, stderr=subprocess.STDOUT, check=False)
    if done.returncode:
        raise CannotInstall(_why(log.read_text(errors="replace"), log))


def _installer(python: Path, locked: Path) -> list[str]:
    uv = shutil.which("uv")
    if uv:
        return [uv, "pip", "install", "--python", str(python), *UV_OPTIONS, "-r", str(locked)]
    return [_python_with_pip(), "-m", "pip", "--python", str(python), "install", *PIP_OPTIONS, "-r", str(locked)]


def _python_with_pip() -> str:
    # Our own environment has no pip (making one costs seconds); the Python behind its link has.
    return sys.executable if find_spec("pip") else str(Path(sys.executable).resolve())


def _why(said: str, log: Path) -> str:
    if "No module named pip" in said:
        return NO_PIP
    tail = "\n".join(said.splitlines()[-TAIL_LINES:])
    return f"the packages could not be installed; the end of {log}:\n{tail}\nCheck the network, then run it again."
