"""Finds the commands by the files in server/commands, without importing any of them."""

import ast
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

FOLDER = Path(__file__).resolve().parents[1] / "commands"


@dataclass(frozen=True)
class Command:
    """One word that can be typed, the module that does it, and one line about it."""

    name: str
    module: str
    help: str


def all_commands(folder: Path = FOLDER) -> list[Command]:
    """Every command there is, by name; check_record.py is typed check-record, continue_.py continue."""
    files = sorted(file for file in folder.glob("*.py") if not file.name.startswith("_"))
    return [_command(file) for file in files]


def usage(commands: Iterable[Command]) -> str:
    """What there is to type, one command a line."""
    lines = [f"  {command.name:<16}{command.help}" for command in commands]
    return "\n".join(["usage: strawline COMMAND [arguments]", "", *lines, "", "COMMAND --help says more about one."])


def _command(file: Path) -> Command:
    text = ast.get_docstring(ast.parse(file.read_text(encoding="utf-8"))) or ""
    first = text.partition("\n")[0]
    return Command(file.stem.rstrip("_").replace("_", "-"), f"server.commands.{file.stem}", first)
