"""A sheet as read: its values, and the complaint about any of them with the line it stands on."""

import re
import tomllib
from functools import cached_property
from typing import Any

from server.sheets.complaint import Complaint, SheetRefused
from server.sheets.places import Path, places

_PLACE = re.compile(r"(.*) \(at (?:line (\d+), column \d+|end of document)\)")


class Sheet:
    """The values of one TOML text and where each stands."""

    def __init__(self, text: str, file: str) -> None:
        """Read the text; what is no TOML is refused with the line it breaks on."""
        self.file = file
        self.values: dict[str, Any] = _values(text, file)
        self._text = text

    @cached_property
    def places(self) -> dict[Path, int]:
        """The line of everything in it; only looked for once something is complained about."""
        return places(self._text.replace("\r\n", "\n"))

    def complain(
        self, path: Path, expected: str, instead: str, value: object = None, words: str | None = None
    ) -> Complaint:
        """A complaint about the value at a path, or about a value or words given in its place."""
        shown = words or _shown(self._value(path) if value is None else value)
        return Complaint(self.file, self.line(path), self.called(path), shown, expected, instead)

    def line(self, path: Path) -> int:
        """The line of a value, or of the nearest thing around it that stands on a line."""
        return self.places.get(self._standing(path)[0], 1)

    def called(self, path: Path) -> str:
        """The path as a person reads it: list entries by their id where they have one, else counted from one."""
        standing, rest = self._standing(path)
        words, value = "", self.values
        for part in (*standing, *rest):
            value = _inside(value, part)
            if isinstance(part, int):
                words += f"[{value['id'] if isinstance(value, dict) and 'id' in value else part + 1}]"
            else:
                words += f".{part}" if words else part
        return words or "the file"

    def _standing(self, path: Path) -> tuple[Path, Path]:
        standing: Path = ()
        for index, part in enumerate(path):
            if (*standing, part) in self.places:
                standing = (*standing, part)
            elif not isinstance(part, int):
                return standing, path[index:]
        return standing, ()

    def _value(self, path: Path) -> object:
        standing, rest = self._standing(path)
        value: object = self.values
        for part in (*standing, *rest):
            value = _inside(value, part)
        return value


def _values(text: str, file: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as slip:
        found = _PLACE.fullmatch(str(slip))
        lines = text.splitlines() or [""]
        line = int(found[2]) if found and found[2] else len(lines)
        stands = lines[min(line, len(lines)) - 1].strip()
        problem = found[1] if found else str(slip)
        instead = "Mend that line: text stands in quotes, a list in [ ], a value after =, each key once."
        raise SheetRefused([Complaint(file, line, "the file", repr(stands), f"TOML ({problem})", instead)]) from None


def _inside(value: Any, part: str | int) -> Any:
    if isinstance(value, dict):
        return value.get(part)
    if isinstance(value, list) and isinstance(part, int) and part < len(value):
        return value[part]
    return None


def _shown(value: object) -> str:
    if value is None:
        return "missing"
    text = repr(value) if isinstance(value, str) else str(value)
    return text if len(text) <= 80 else text[:77] + "..."
