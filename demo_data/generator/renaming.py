"""Tells the same kind of history under other names and on other days: serials, people, lines, cylinders, dates."""

import json
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from typing import Any

_MOMENT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d(?::\d\d(?:\.\d{1,3})?)?(?:Z|[+-]\d\d:\d\d)?")
_DATE = re.compile(r"\b\d{4}-\d\d-\d\d\b(?!T)")
WEEK = timedelta(days=7)


@dataclass(frozen=True)
class Renaming:
    """Codes by pattern with what stands in for them, and how many weeks later everything is."""

    weeks: int = 0
    codes: tuple[tuple[str, Callable[[re.Match[str]], str]], ...] = ()
    _patterns: list[tuple[re.Pattern[str], Callable[[re.Match[str]], str]]] = field(default_factory=list, init=False)

    def __post_init__(self) -> None:
        """Make the patterns ready."""
        self._patterns.extend((re.compile(pattern), new) for pattern, new in self.codes)

    def line(self, text: str) -> str:
        """Rename and move everything in one line of JSON."""
        return self.dates(self._named(text)) if self.codes or self.weeks else text

    def toml(self, text: str) -> str:
        """Rename and move everything in a TOML text."""
        return self.line(text)

    def outside(self, told: dict[str, Any]) -> str:
        """Write a delivery whose line is renamed already."""
        line = told.pop("line")
        around = json.loads(self.line(json.dumps(told)))
        return json.dumps({**around, "line": line}, ensure_ascii=False, sort_keys=True, separators=(",", ":"))

    def dates(self, text: str) -> str:
        """Move every day and moment."""
        if not self.weeks:
            return text
        text = _MOMENT.sub(lambda found: self._moment(found[0]), text)
        return _DATE.sub(lambda found: (date.fromisoformat(found[0]) + self.weeks * WEEK).isoformat(), text)

    def _named(self, text: str) -> str:
        for pattern, new in self._patterns:
            text = pattern.sub(new, text)
        return text

    def _moment(self, text: str) -> str:
        day = datetime.fromisoformat(text[:10]).replace(tzinfo=UTC) + self.weeks * WEEK
        return f"{day:%Y-%m-%d}{text[10:]}"
