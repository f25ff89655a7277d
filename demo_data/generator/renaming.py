"""Tells the same kind of history under other names and on other days: serials, people, lines, cylinders, dates."""

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, timedelta
from functools import cached_property

from demo_data.generator.json_line import json_line

_DAY = re.compile(r"20\d\d-\d\d-\d\d(?:(?=T\d\d:\d\d)|\b(?!T))")
"""A day of this century alone, or the one a moment lies on; what begins with set figures is found quickest."""
WEEK = timedelta(days=7)


@dataclass(frozen=True)
class Renaming:
    """Codes by pattern with what stands in for them, and how many weeks later everything is."""

    weeks: int = 0
    codes: tuple[tuple[str, Callable[[re.Match[str]], str]], ...] = ()
    _known: dict[str, str] = field(default_factory=dict, init=False, compare=False)
    """What each code and each day met so far became."""

    def line(self, text: str) -> str:
        """Rename and move everything in one line of JSON."""
        return self.dates(self._named(text)) if self.codes or self.weeks else text

    def toml(self, text: str) -> str:
        """Rename and move everything in a TOML text."""
        return self.line(text)

    def outside(self, told: dict[str, str]) -> str:
        """Write a delivery whose line is renamed already."""
        return json_line({name: text if name == "line" else self._around(name, text) for name, text in told.items()})

    def _around(self, name: str, text: str) -> str:
        return self.dates(text) if name.endswith("_at") else self._named(text)

    def dates(self, text: str) -> str:
        """Move every day and moment."""
        return _DAY.sub(lambda found: self._later(found[0]), text) if self.weeks else text

    @cached_property
    def _any_code(self) -> re.Pattern[str]:
        # Every code begins a word with a capital, so that at most places none of them has to be tried.
        return re.compile(rf"\b(?=[A-Z])(?:{'|'.join(f'(?:{pattern})' for pattern, _ in self.codes)})")

    def _named(self, text: str) -> str:
        return self._any_code.sub(lambda found: self._renamed(found[0]), text) if self.codes else text

    def _renamed(self, code: str) -> str:
        if code not in self._known:
            found = ((re.fullmatch(pattern, code), new) for pattern, new in self.codes)
            self._known[code] = next(new(match) for match, new in found if match)
        return self._known[code]

    def _later(self, day: str) -> str:
        if day not in self._known:
            self._known[day] = (date.fromisoformat(day) + self.weeks * WEEK).isoformat()
        return self._known[day]
