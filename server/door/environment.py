"""Makes the .venv beside the house stand, once, and knows when it is stale."""

import fcntl
import hashlib
import shlex
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from importlib.util import find_spec
from pathlib import Path

from server.door.installing import install

ROOT = Path(__file__).resolve().parents[2]
PROBES = {"run": ("fastapi", "sqlmodel", "uvicorn", "typst"), "test": ("pytest", "hypothesis", "httpx")}
# Not a python script: a `#!` line cannot name a python whose folder has a space in its name.
COMMAND_SCRIPT = '#!/bin/sh\nexec {python} -P -m server "$@"\n'


def inside(lists: Sequence[str], root: Path = ROOT) -> bool:
    """Whether this very process already runs where everything on these lists is installed."""
    if Path(sys.prefix).resolve() == (root / ".venv").resolve():
        return not _missing(lists, root)
    in_somebodys_environment = sys.prefix != sys.base_prefix
    return in_somebodys_environment and all(find_spec(probe) for name in lists for probe in PROBES[name])


def make_stand(lists: Sequence[str], root: Path = ROOT) -> Path:
    """The environment's python, after making or completing the environment where that is needed."""
    python = root / ".venv" / "bin" / "python"
    if _missing(lists, root):
        with _alone(root):
            _complete(lists, python, root)
    return python


def _complete(lists: Sequence[str], python: Path, root: Path) -> None:
    home = root / ".venv"
    if not _stamped(home / ".stamp", _made_for(root)):
        # Needed once, and slow to import.
        import venv

        venv.create(home, clear=True, with_pip=False, symlinks=True)
        _point_at_the_house(home, root)
        (home / ".stamp").write_text(_made_for(root))
    for name in _missing(lists, root):
        install(python, _list_file(name), home / f"install_{name}.log")
        (home / f".stamp_{name}").write_text(_list_key(name, root))


def _point_at_the_house(home: Path, root: Path) -> None:
    packages = home / "lib" / f"python{sys.version_info[0]}.{sys.version_info[1]}" / "site-packages"
    (packages / "strawline.pth").write_text(f"{root}\n")
    script = home / "bin" / "strawline"
    script.write_text(COMMAND_SCRIPT.format(python=shlex.quote(str(home / "bin" / "python"))))
    script.chmod(0o755)


def _missing(lists: Sequence[str], root: Path) -> list[str]:
    home = root / ".venv"
    if not _stamped(home / ".stamp", _made_for(root)):
        return list(lists)
    return [name for name in lists if not _stamped(home / f".stamp_{name}", _list_key(name, root))]


def _stamped(file: Path, key: str) -> bool:
    return file.is_file() and file.read_text() == key


def _made_for(root: Path) -> str:
    return hashlib.sha256(f"{root}\n{sys.version}".encode()).hexdigest()


def _list_key(name: str, root: Path) -> str:
    return hashlib.sha256(_made_for(root).encode() + _list_file(name).read_bytes()).hexdigest()


def _list_file(name: str) -> Path:
    return Path(__file__).parent / f"locked_{name}.txt"


@contextmanager
def _alone(root: Path) -> Iterator[None]:
    with (root / ".venv.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        yield
