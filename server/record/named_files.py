"""Goes through the files that lines name by their SHA-256: each must lie beside the record, with just those bytes."""

import json
from collections import defaultdict
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, NamedTuple

from sqlalchemy import Connection, or_, select

from server.record.files import FileDamaged, Files
from server.record.lines import HOUSE
from server.record.saying import Say, said_beside, unsaid
from server.record.tables.columns import LINE

_ENTRIES, _PAPERS = ("arrived", "trace"), ("certificate file", "claim step", "decision")
_ASKED = (
    select(LINE.position, LINE.id, LINE.device, LINE.body)
    .where(LINE.state == "taken", or_(LINE.entry_kind.in_(_ENTRIES), LINE.kind.in_(_PAPERS)))
    .order_by(LINE.position)
)
_MISSING = "is missing"


class Naming(NamedTuple):
    """A line that names a file, and whether the file was kept before the line was written."""

    line: str
    promised: bool


class NamedFiles(NamedTuple):
    """How many files are named, a sentence for each that is gone or damaged, and one for each that never came."""

    named: int
    odd: tuple[str, ...]
    never_came: tuple[str, ...]


def named_files(connection: Connection, folder: Path, say: Say = unsaid) -> NamedFiles:
    """Read every file a line names; a line from a shop folder may name one that was never brought."""
    named = said_beside(connection, say, "which files are named", lambda: _named(connection))
    files, odd, never_came = Files(folder), list[str](), list[str]()
    for number, (sha256, namings) in enumerate(named.items()):
        say("files", number, len(named))
        wrong = _wrong(files, sha256)
        said = f"{', '.join(each.line for each in namings)}: the file {sha256} {wrong}"
        if wrong == _MISSING and not any(each.promised for each in namings):
            never_came.append(f"{said}: it never came with the shop folder, or was lost since")
        elif wrong:
            odd.append(f"{said}; put it back from a backup, the line stands as it was")
    return NamedFiles(len(named), tuple(odd), tuple(never_came))


def _wrong(files: Files, sha256: str) -> str:
    try:
        return "" if files.read(sha256) is not None else _MISSING
    except FileDamaged:
        return "has other bytes than its name promises"
    except OSError as slip:
        return f"cannot be read ({slip.strerror})"


def _named(connection: Connection) -> dict[str, list[Naming]]:
    """Give the lines by the SHA-256 of what is kept: of a picture that is not always what other lines call it by."""
    lines = [(*row, _read(body)) for *row, body in connection.execute(_ASKED)]
    kept_as = {str(told.get("sha256")): str(told["kept_sha256"]) for *_, told in lines if "kept_sha256" in told}
    found: dict[str, list[Naming]] = defaultdict(list)
    for position, name, device, told in lines:
        for sha256 in _names(told):
            naming = Naming(f"line at position {position}, id {name}", device == HOUSE)
            found[kept_as.get(sha256, sha256)].append(naming)
    return found


def _read(body: bytes) -> Mapping[str, Any]:
    # Bytes that somebody altered are named by the recheck of the lines; here they only name nothing.
    try:
        told = json.loads(body)
    except (TypeError, ValueError):
        return {}
    return told if isinstance(told, dict) else {}


def _names(told: Mapping[str, Any]) -> Iterator[str]:
    one = told.get("kept_sha256") or told.get("sha256") or told.get("file_sha256")
    several = (told.get("more_files"), told.get("attachments"))
    yield from (str(each) for each in (one, *(it for each in several for it in each or ())) if each)
