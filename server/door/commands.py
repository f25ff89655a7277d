"""Finds the commands by the files in server/commands, without importing any of them."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

FOLDER = Path(__file__).resolve().parents[1] / "commands"


@dataclass(frozen=True)
class Command:
    """One word that can be typed, the module that does it, and the file that is."""

    name: str
    module: str
    file: Path

    @property
    def help(self) -> str:
        """One line about it; read only when it is asked for, since the door opens at every start."""
        import ast

        text = ast.get_docstring(ast.parse(self.file.read_text(encoding="utf-8"))) or ""
        return text.partition("\n")[0]


def all_commands(folder: Path = FOLDER) -> list[Command]:
    """Every command there is, by name; check_record.py is typed check-record, continue_.py continue."""
    files = sorted(file for file in folder.glob("*.py") if not file.name.startswith("_"))
    return [_command(file) for file in files]


def usage(commands: Iterable[Command]) -> str:
    """What there is to type, one command a line."""
    lines = [f"  {command.name:<16}{command.help}" for command in commands]
    return "\n".join(["usage: strawline COMMAND [arguments]", "", *lines, "", "COMMAND --help says more about one."])


def _command(file: Path) -> Command:
    return Command(file.stem.rstrip("_").replace("_", "-"), f"server.commands.{file.stem}", file)
