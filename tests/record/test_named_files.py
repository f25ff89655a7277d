"""Every file a line names is read again: what is gone or has other bytes is named with the lines that name it."""

import shutil
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

from server.record.book_of_lines import Record
from server.record.files import Files
from server.record.lines import HOUSE
from server.record.named_files import NamedFiles
from server.record.record_check import CannotCheck, check_files
from tests.record.fixtures import append, url_of
from tests.record.sample_lines import new_entry, new_register

SENT = sha256(b"as it was sent").hexdigest()
PICTURE, RECORDING, SHEET, NEVER = (sha256(each).hexdigest() for each in (b"picture", b"amps", b"sheet", b"never"))
_LOOK: dict[str, Any] = {"looks_like": "0" * 16, "width_px": 1, "height_px": 1}
_STEP = {"kind": "claim step", "claim": "W", "step": "photo", "at": "2025-03-18T12:00:00.000Z", "written_by": "P1"}


@pytest.fixture
def filled(file: Path) -> Path:
    """A picture whose kept bytes are not those sent, a recording, papers that name both and two others."""
    folder, record = file.parent, Record.open(url_of(file))
    for content in (b"picture", b"amps", b"sheet"):
        Files(folder).keep(content)
    arrived = new_entry(1, "arrived", frame="F-1", sha256=SENT, kept_sha256=PICTURE, **_LOOK)
    trace = new_entry(2, "trace", of="X", sha256=RECORDING, instrument="PS-1")
    step = new_register(_STEP | {"id": "W/1", "words": "seen", "file_sha256": SENT, "more_files": [SHEET]})
    moved_in = new_register(_STEP | {"id": "W/2", "words": "told by mail", "file_sha256": NEVER})
    append(record, *(each._replace(device=HOUSE) for each in (arrived, trace, step)), moved_in)
    record.close()
    return file


def found(file: Path) -> NamedFiles:
    return check_files(url_of(file), file.parent)


def kept(file: Path, name: str) -> Path:
    return file.parent / "record" / "files" / name[:2] / name


def test_what_is_there_is_not_said(filled: Path):
    """Control: four files are named; three lie there, one was never brought with its shop folder, which is no fault."""
    told = found(filled)
    assert (told.named, told.odd) == (4, ())
    (said,) = told.never_came
    assert said.startswith(f"line at position 4, id W/2: the file {NEVER} is missing: it never came")


@pytest.mark.parametrize(
    ("name", "lines"),
    [
        (PICTURE, "line at position 1, id TAB-1:b1:1, line at position 3, id W/1"),
        (RECORDING, "line at position 2, id TAB-1:b1:2"),
        (SHEET, "line at position 3, id W/1"),
    ],
)
def test_one_deleted_and_one_flipped_are_named(filled: Path, name: str, lines: str):
    """A file that is gone and one with a flipped bit are each named with every line that names it, and no other is."""
    file = kept(filled, name)
    content = file.read_bytes()
    file.write_bytes(bytes([content[0] ^ 1]) + content[1:])
    mend = "put it back from a backup, the line stands as it was"
    assert found(filled).odd == (f"{lines}: the file {name} has other bytes than its name promises; {mend}",)
    file.unlink()
    assert found(filled).odd == (f"{lines}: the file {name} is missing; {mend}",)


def test_a_file_moved_in_is_damaged_all_the_same(filled: Path):
    """What only a shop folder's line names is no fault while it is missing, but is one with other bytes."""
    kept(filled, NEVER).parent.mkdir(exist_ok=True)
    kept(filled, NEVER).write_bytes(b"another")
    assert [said for said in found(filled).odd if "W/2" in said and "other bytes" in said]


def test_the_whole_folder_lost_is_said_file_by_file(filled: Path):
    """Without the folder of files every promised one is missing; without a record there is nothing to check."""
    shutil.rmtree(filled.parent / "record")
    assert len(found(filled).odd) == 3
    with pytest.raises(CannotCheck, match="there is no record"):
        check_files(url_of(filled.parent / "none.sqlite3"), filled.parent)
