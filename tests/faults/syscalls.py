"""Reads a trace of system calls into what happened to the disk, and what was answered, in the order in which it did."""

import json
import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any, NamedTuple

TRACED = ("-xx", "-s", "90000", "-e", "trace=pwrite64,write,fdatasync,fsync,ftruncate,unlink,openat")
"""What strace is asked for: every call that changes a file or answers somebody, with all of its bytes."""

_CALL = re.compile(r"(\d+) +(\w+)\((.*)")
_RESUMED = re.compile(r"(\d+) +<\.\.\. (\w+) resumed>(.*)")
_UNFINISHED = " <unfinished ...>"
_PLACE = re.compile(r"\d+<([^>]*)>")
_TEXT = re.compile(r'"((?:\\x[0-9a-f]{2})*)"')
_RESULT = re.compile(r"\) += (-?\d+)")


class Wrote(NamedTuple):
    """Bytes were handed to the system, which may keep them from the disk until it is asked to sync."""

    path: str
    offset: int
    content: bytes


class Truncated(NamedTuple):
    """A file was cut off, or made longer, to a size."""

    path: str
    size: int


class Synced(NamedTuple):
    """A file, or a folder's list of names, has reached the disk."""

    path: str


class Named(NamedTuple):
    """A name appeared in a folder, or went."""

    path: str
    there: bool


class Acknowledged(NamedTuple):
    """Somebody was answered that their entries are kept."""

    receipts: list[dict[str, Any]]


Event = Wrote | Truncated | Synced | Named | Acknowledged


def events(lines: Iterable[str]) -> Iterator[Event]:
    """Give what happened; a change counts when its call has returned, an answer already when it is begun."""
    begun: dict[tuple[str, str], str] = {}
    for line in lines:
        if resumed := _RESUMED.match(line):
            thread, name, rest = resumed.groups()
            yield from _done(name, begun.pop((thread, name), "") + rest)
        elif call := _CALL.match(line):
            thread, name, told = call.groups()
            if name == "write":
                yield from _answered(told)
            elif told.endswith(_UNFINISHED):
                begun[thread, name] = told.removesuffix(_UNFINISHED)
            else:
                yield from _done(name, told)


def failed_at(lines: Iterable[str]) -> list[str]:
    """Give the file of every call that was made to fail, also of one that another thread's call interrupted."""
    begun: dict[str, str] = {}
    failed = []
    for line in lines:
        thread, _, told = line.partition(" ")
        if told.endswith(_UNFINISHED):
            begun[thread] = told
        if "(INJECTED)" in told:
            failed.append((begun[thread] if "resumed>" in told else told).partition("<")[2].partition(">")[0])
    return failed


def events_in(trace: Path, folder: Path) -> list[Event]:
    """Give what happened in one folder, and every answer."""
    with trace.open(encoding="ascii") as lines:
        wanted = (line.rstrip("\n") for line in lines)
        return [each for each in events(wanted) if isinstance(each, Acknowledged) or _within(each, folder)]


def _within(event: Any, folder: Path) -> bool:
    return str(event.path).startswith(str(folder))


def _done(name: str, told: str) -> Iterator[Event]:
    result = _RESULT.search(told)
    if result is None or int(result[1]) < 0:
        return
    if name in ("fdatasync", "fsync"):
        yield Synced(_place(told))
    elif name == "ftruncate":
        yield Truncated(_place(told), int(told.partition(", ")[2].partition(")")[0]))
    elif name == "unlink":
        yield Named(_text(told).decode(), there=False)
    elif name == "openat" and "O_CREAT" in told:
        yield Named(_text(told).decode(), there=True)
    elif name == "pwrite64":
        content, offset = _text(told), int(told[: result.start()].rpartition(", ")[2])
        yield Wrote(_place(told), offset, content[: int(result[1])])


def _answered(told: str) -> Iterator[Event]:
    # A receipt's first byte may reach the tablet before the call returns.
    if _place(told).startswith("socket:"):
        body = _text(told)
        if body.startswith(b'{"receipts":'):
            yield Acknowledged(json.loads(body)["receipts"])


def _place(told: str) -> str:
    found = _PLACE.match(told)
    if not found:
        return ""
    return bytes.fromhex(found[1].replace("\\x", "")).decode() if found[1].startswith("\\x") else found[1]


def _text(told: str) -> bytes:
    found = _TEXT.search(told)
    return bytes.fromhex(found[1].replace("\\x", "")) if found else b""
