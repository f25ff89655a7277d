"""Makes a backup while the service goes on: the record, and what lies beside it in the data folder."""

import errno
import os
import shutil
import sqlite3
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from server.facts.moment import show_moment
from server.record.copying import copy_record, how_far, sync
from server.record.opening import file_of
from server.record.pepper import FILE_NAME as PEPPER
from server.record.saying import Say, unsaid
from server.record.signing_key import FILE_NAME as SIGNING_KEY
from server.record.signing_key import known_keys
from server.upkeep.disk import TOO_LITTLE_BYTES, free_bytes
from server.upkeep.manifest import NAME, Manifest, describe, shown_root, written
from server.upkeep.secret_files import make_secret_folder, write_whole
from server.upkeep.shelf import backups_on, clear_what_was_left, held, in_the_making, name_of

RECORD, BESIDE = "record.sqlite3", "beside"
_IN_THE_MAKING = (".", "half-")


class CannotBackUp(Exception):
    """No backup was made; what was there before is untouched."""


class Backup(NamedTuple):
    """A backup that was made, and what it says of itself."""

    folder: Path
    manifest: Manifest


def make_backup(
    url: str, data_folder: Path, shelf: Path, now_ms: int, *, with_key: bool = True, say: Say = unsaid
) -> Backup:
    """Make a backup on the shelf; it appears there whole, or not at all."""
    file = file_of(url)
    if file is None:
        raise CannotBackUp(
            "this record lies in PostgreSQL: back it up by that database's own means (pg_dump), and keep the data "
            "folder with record.key beside it"
        )
    name = name_of(now_ms)
    part = in_the_making(shelf, name)
    try:
        make_secret_folder(shelf)
        clear_what_was_left(shelf)
        _refuse_to_fill_the_disk(file, shelf)
        part.mkdir(mode=0o700)
        with held(part):
            copy_record(file, part / RECORD, say)
            _copy_beside(data_folder, file, shelf, part / BESIDE, with_key=with_key)
            manifest = _manifest(part, data_folder, now_ms, say)
            write_whole(part / NAME, written(manifest), secret=True)
            part.rename(shelf / name)
        sync(shelf)
    except BaseException as slip:
        shutil.rmtree(part, ignore_errors=True)
        if not isinstance(slip, OSError | sqlite3.Error):
            raise
        raise CannotBackUp(f"no backup was made in {shelf}: {slip}; make room there, or name another folder") from slip
    return Backup(shelf / name, manifest)


def _refuse_to_fill_the_disk(record: Path, shelf: Path) -> None:
    # A backup must never be what keeps the record beside it from taking entries.
    if free_bytes(shelf) < record.stat().st_size + TOO_LITTLE_BYTES:
        raise OSError(errno.ENOSPC, "the copy would leave too little room on its disk")


def _manifest(part: Path, data_folder: Path, now_ms: int, say: Say) -> Manifest:
    reached = how_far(part / RECORD, say)
    note = reached.checkpoint.note.decode() if reached.checkpoint else None
    keys = tuple(map(str, known_keys(data_folder)))
    files = tuple(describe(path, part, say) for path in sorted(part.rglob("*")) if path.is_file())
    return Manifest(show_moment(now_ms), reached.lines, shown_root(reached.root), note, keys, files)


def _copy_beside(data_folder: Path, record: Path, shelf: Path, target: Path, *, with_key: bool) -> None:
    target.mkdir(mode=0o700)
    before = next(reversed(backups_on(shelf)), shelf) / BESIDE
    for path in _beside(data_folder, record, shelf):
        if with_key or not path.name.startswith((SIGNING_KEY, PEPPER)):
            relative = path.relative_to(data_folder)
            (target / relative).parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            _copy_or_link(path, before / relative, target / relative)


def _copy_or_link(path: Path, before: Path, copy: Path) -> None:
    # A photo is the same in every backup; it is read each time, and kept once.
    try:
        if before.is_file() and describe(before, before.parent) == describe(path, path.parent):
            os.link(before, copy)
        else:
            shutil.copy2(path, copy)
            sync(copy)
    except FileNotFoundError:
        # It was in the making and has its own name by now. A file that a line names was there before the line was.
        copy.unlink(missing_ok=True)


def _beside(data_folder: Path, record: Path, shelf: Path) -> Iterator[Path]:
    """Give every file of the data folder but the database's own, what is in the making, and the backups."""
    for folder, names, files in os.walk(data_folder):
        here = Path(folder)
        names[:] = [name for name in names if here / name != shelf and not name.startswith(".")]
        for name in files:
            database = here == record.parent and name.startswith((record.name, f"{record.stem}-before-"))
            if not database and not name.startswith(_IN_THE_MAKING):
                yield here / name
