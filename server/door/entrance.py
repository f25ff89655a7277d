"""Reads what was typed, sees to the environment it needs, and hands over to the command."""

import importlib
import os
import sys
from pathlib import Path
from typing import NoReturn

from server.door.commands import Command, all_commands, usage
from server.door.environment import ROOT, inside, make_stand
from server.door.installing import CannotInstall

LISTS_FOR = {"test": ("run", "test")}
LISTS_OTHERWISE = ("run",)
_STOPPED = "Type it again to begin anew."
_STOPPED_BY_HAND = 130


def enter(arguments: list[str]) -> int:
    """Run the command named first; without one, or with --help, say what there is."""
    known = {command.name: command for command in all_commands()}
    if not arguments or arguments[0] in ("-h", "--help", "help"):
        print(usage(known.values()))
        return 0
    command = known.get(arguments[0])
    if command is None:
        wrong = f"strawline: there is no command {arguments[0]!r}; expected one of: {', '.join(known)}"
        print(wrong, file=sys.stderr)
        return 2
    return _hand_over(command, arguments)


def _hand_over(command: Command, arguments: list[str]) -> int:
    lists = LISTS_FOR.get(command.name, LISTS_OTHERWISE)
    if inside(lists):
        return _run(command, arguments[1:])
    try:
        python = make_stand(lists)
    except CannotInstall as trouble:
        print(f"strawline: {trouble}", file=sys.stderr)
        return 1
    # -P: the environment's own .pth says where the house is; a `server` folder where one happens to stand must not win.
    return _become(python, "-P", "-m", "server", *arguments)


def _run(command: Command, arguments: list[str]) -> int:
    module = importlib.import_module(command.module)
    try:
        return int(module.run(arguments))
    except KeyboardInterrupt:
        print(f"\nstrawline: {command.name} was stopped. {getattr(module, 'STOPPED', _STOPPED)}", file=sys.stderr)
        return _STOPPED_BY_HAND
    except OSError as slip:
        # A place somebody named is theirs to mend; what names none is a fault of ours.
        if slip.filename is None:
            raise
        said = f"strawline: {slip.filename}: {slip.strerror}; see that it is there and yours to write, or name another"
        print(said, file=sys.stderr)
        return 2


def run_tests(arguments: list[str]) -> NoReturn:
    """Become pytest over the whole house, with the defaults of pyproject.toml."""
    os.chdir(ROOT)
    _become(Path(sys.executable), "-m", "pytest", "-q", *arguments)


def _become(python: Path, *arguments: str) -> NoReturn:
    sys.stdout.flush()
    os.execv(python, [str(python), *arguments])
