"""Where in a TOML text each value stands: the line of every key, table and list entry."""

import re
from collections.abc import Iterator
from typing import NamedTuple

Path = tuple[str | int, ...]

_TOKEN = re.compile(
    r"""
    (?P<long>\"\"\"(?:[^\\]|\\.)*?\"\"\"(?!\") | '''.*?'''(?!'))
  | (?P<short>"(?:[^"\\\n]|\\.)*" | '[^'\n]*')
  | (?P<comment>\#[^\n]*)
  | (?P<newline>\n)
  | (?P<mark>[\[\]{},=])
  | (?P<bare>[^\s\[\]{},=\#"']+)
    """,
    re.VERBOSE | re.DOTALL,
)


class _Token(NamedTuple):
    kind: str
    text: str
    line: int


def places(text: str) -> dict[Path, int]:
    """The line, counted from one, of everything in a TOML text that is known to be valid.

    >>> places('[limits.volts]\\nlow = 8\\nplan = { when = "never" }')[("limits", "volts", "plan", "when")]
    3
    """
    walk = _Walk(list(_tokens(text)))
    walk.sheet()
    return walk.found


def _tokens(text: str) -> Iterator[_Token]:
    line = 1
    for match in _TOKEN.finditer(text):
        kind = str(match.lastgroup)
        if kind != "comment":
            yield _Token(kind, match.group(), line)
        line += match.group().count("\n")


class _Walk:
    def __init__(self, tokens: list[_Token]) -> None:
        self.tokens, self.at = tokens, 0
        self.found: dict[Path, int] = {}
        self.counts: dict[Path, int] = {}

    def sheet(self) -> None:
        base: Path = ()
        while self._skip_newlines():
            base = self._header() if self._sees("[") else self._pair(base)

    def _header(self) -> Path:
        line = self.tokens[self.at].line
        self.at += 1
        many = self._sees("[")
        self.at += many
        base: Path = ()
        for part in self._key("]"):
            base = (*self._within(base), part)
            self.found.setdefault(base, line)
        self.at += many
        if many:
            self.counts[base] = self.counts.get(base, -1) + 1
        base = self._within(base)
        self.found[base] = line
        return base

    def _within(self, path: Path) -> Path:
        return (*path, self.counts[path]) if path in self.counts else path

    def _pair(self, base: Path) -> Path:
        line = self.tokens[self.at].line
        path = base
        for part in self._key("="):
            path = (*path, part)
            self.found.setdefault(path, line)
        self._value(path, line)
        return base

    def _key(self, end: str) -> list[str]:
        parts: list[str] = []
        while not self._sees(end):
            token = self.tokens[self.at]
            parts += [token.text[1:-1]] if token.kind == "short" else [p for p in token.text.split(".") if p]
            self.at += 1
        self.at += 1
        return parts

    def _value(self, path: Path, line: int) -> None:
        self.found[path] = line
        if self._sees("["):
            self._list(path)
        elif self._sees("{"):
            self._inline(path)
        else:
            while self.at < len(self.tokens) and self.tokens[self.at].kind not in ("mark", "newline"):
                self.at += 1

    def _list(self, path: Path) -> None:
        self.at += 1
        index = 0
        while self._skip_newlines() and not self._sees("]"):
            if self._sees(","):
                self.at += 1
                continue
            self._value((*path, index), self.tokens[self.at].line)
            index += 1
        self.at += 1

    def _inline(self, path: Path) -> None:
        self.at += 1
        while self._skip_newlines() and not self._sees("}"):
            if self._sees(","):
                self.at += 1
            else:
                self._pair(path)
        self.at += 1

    def _skip_newlines(self) -> bool:
        while self.at < len(self.tokens) and self.tokens[self.at].kind == "newline":
            self.at += 1
        return self.at < len(self.tokens)

    def _sees(self, mark: str) -> bool:
        return self.at < len(self.tokens) and self.tokens[self.at][:2] == ("mark", mark)
