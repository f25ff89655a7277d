"""A complaint about a sheet: file, line, field, value, what is expected, and what to write instead."""

from collections.abc import Iterable
from typing import NamedTuple


class Complaint(NamedTuple):
    """One thing wrong in one sheet, in the words of whoever has to mend it; line 0 is the file as a whole."""

    file: str
    line: int
    field: str
    value: str
    expected: str
    instead: str

    def __str__(self) -> str:
        """One sentence that says where, what, and how to mend it."""
        where = f"{self.file}, line {self.line}" if self.line else self.file
        return f"{where}: {self.field} is {self.value}; expected {self.expected}. {self.instead}"


class SheetRefused(ValueError):
    """A sheet that cannot be taken, with everything wrong in it at once."""

    def __init__(self, complaints: Iterable[Complaint]) -> None:
        """Keep the complaints in the order of the lines."""
        self.complaints = tuple(sorted(complaints, key=lambda c: c.line))
        super().__init__("\n".join(map(str, self.complaints)))
