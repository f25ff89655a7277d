"""Reads the two files of a shop folder that tell what came when: papers.jsonl and deliveries.jsonl, line by line."""

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, TypeVar

from pydantic import ValidationError

from server.facts.deciding import Permission
from server.facts.delivery import Delivery
from server.facts.moment import parse_moment
from server.sheets.complaint import Complaint
from server.work.folder_line import NOUNS, FolderLine, line_of

Told = TypeVar("Told", FolderLine, Delivery)
_MEND = "Mend that line and load again; nothing was loaded."
_PAPER = 'an object of two: {"received_at": a moment, "line": a noun with its kind}'


def read_papers(file: Path) -> Iterator[FolderLine | Complaint]:
    """Give every signed or later paper as a register line, or what is wrong with it."""
    yield from _read(file, lambda line: _paper(json.loads(line)), lambda line: line.received_ms)


def read_deliveries(file: Path) -> Iterator[Delivery | Complaint]:
    """Give every delivery as it was sent, or what is wrong with it; what its entry says is not looked into here."""
    yield from _read(file, _delivery, lambda delivery: delivery.received_at)


def _read(
    file: Path, make: Callable[[str], Told], received: Callable[[Told], int | None]
) -> Iterator[Told | Complaint]:
    if not file.exists():
        return
    last = 0
    with file.open(encoding="utf-8") as lines:
        for number, line in enumerate(lines, start=1):
            try:
                told = make(line)
                last = _in_order(received(told), last)
                yield told
            except ValueError as wrong:
                yield from _complaints(file.name, number, wrong)


def _in_order(received_ms: int | None, last: int) -> int:
    if received_ms is None:
        raise _Slip("received_at", "missing", "the moment it first arrived")
    if received_ms < last:
        raise _Slip("received_at", "before that of the line above", "lines in the order they arrived")
    return received_ms


def _delivery(line: str) -> Delivery:
    try:
        return Delivery.model_validate_json(line)
    except ValidationError:
        # Slower, and in the words a person can mend the line by.
        return Delivery.model_validate(json.loads(line))


def _paper(value: Any) -> FolderLine:
    line = value.get("line") if isinstance(value, dict) else None
    if not isinstance(line, dict) or set(value) != {"received_at", "line"}:
        raise _Slip("the line", _shown(value), _PAPER)
    noun = NOUNS.get(str(line.get("kind")))
    if noun is None:
        raise _Slip("line.kind", _shown(line.get("kind")), f"one of {', '.join(sorted(NOUNS))}")
    # A folder cannot know the record position a gate judged at; the place below stands for it until it is loaded.
    known = {"known_at": 0, **line} if noun is Permission else line
    return line_of(noun.model_validate(known), line, parse_moment(value["received_at"]))


class _Slip(ValueError):
    def __init__(self, field: str, value: str, expected: str) -> None:
        self.parts = (field, value, expected)
        super().__init__(expected)


def _complaints(file: str, number: int, wrong: ValueError) -> Iterator[Complaint]:
    if isinstance(wrong, ValidationError):
        for error in wrong.errors(include_url=False):
            field = ".".join(map(str, error["loc"])) or "the line"
            shown = "missing" if error["type"] == "missing" else _shown(error["input"])
            yield Complaint(file, number, field, shown, error["msg"].removeprefix("Value error, "), _MEND)
        return
    parts = wrong.parts if isinstance(wrong, _Slip) else ("the line", "not readable", str(wrong))
    yield Complaint(file, number, *parts, _MEND)


def _shown(value: Any) -> str:
    text = repr(value)
    return text if len(text) <= 60 else f"{text[:57]}..."
