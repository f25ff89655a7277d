"""Files that lines of the record name by their SHA-256: kept once, on the disk for good before a line names them."""

import errno
import hashlib
import os
import re
import tempfile
from pathlib import Path

from server.record.troubles import NoRoom, RecordTrouble

_NAME = re.compile(r"[0-9a-f]{64}")
_NO_ROOM = {errno.ENOSPC, errno.EDQUOT}


class FileDamaged(RecordTrouble):
    """The bytes on the disk are not those the name promises."""

    def __init__(self, sha256: str) -> None:
        super().__init__(
            f"the file kept as {sha256[:16]}... is damaged: its bytes have another SHA-256; put back the copy of the "
            "backup; the line that names it stands as it was"
        )


class FileNotKept(RecordTrouble):
    """The disk did not take the file; no line names it."""

    def __init__(self, why: str) -> None:
        super().__init__(f"the file could not be kept ({why}), so nothing was recorded; see to the disk, send it again")


class Files:
    """The folder of files beside a record; a file is never changed and never removed."""

    def __init__(self, data_folder: Path) -> None:
        self._folder = data_folder / "record" / "files"

    def keep(self, content: bytes) -> str:
        """Keep some bytes and give their SHA-256; when this returns they have reached the disk, name and all."""
        sha256 = hashlib.sha256(content).hexdigest()
        try:
            if self.read(sha256) is None:
                self._write(self._path(sha256), content)
            self._settle(self._path(sha256))
        except OSError as error:
            raise _trouble(error) from error
        return sha256

    def read(self, sha256: str) -> bytes | None:
        """Give the bytes kept under a SHA-256, none when there are none; raises `FileDamaged` when they do not fit."""
        if not _NAME.fullmatch(sha256):
            return None
        try:
            content = self._path(sha256).read_bytes()
        except FileNotFoundError:
            return None
        if hashlib.sha256(content).hexdigest() != sha256:
            raise FileDamaged(sha256)
        return content

    def _path(self, sha256: str) -> Path:
        return self._folder / sha256[:2] / sha256

    def _write(self, path: Path, content: bytes) -> None:
        path.parent.mkdir(parents=True, exist_ok=True)
        # Under another name until it is whole, so that a crash leaves no half file under a name that promises all.
        handle, waiting = tempfile.mkstemp(dir=path.parent, prefix="half-")
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            Path(waiting).replace(path)
        except BaseException:
            Path(waiting).unlink(missing_ok=True)
            raise

    def _settle(self, path: Path) -> None:
        # A file that is there already may be so from a try whose folder never reached the disk.
        for each in (path, path.parent, self._folder, self._folder.parent, self._folder.parent.parent):
            _reach_the_disk(each)


def _trouble(error: OSError) -> RecordTrouble:
    return NoRoom() if error.errno in _NO_ROOM else FileNotKept(str(error.strerror))


def _reach_the_disk(path: Path) -> None:
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
