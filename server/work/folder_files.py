"""The files of a shop folder that its lines name by their SHA-256: pictures of the bench, and what came with papers."""

import hashlib
import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from server.documents.not_a_picture import NotAPicture
from server.documents.picture import check_picture
from server.record.book_of_lines import Record
from server.record.files import Files
from server.sheets.complaint import Complaint
from server.work.evidence_files import kind_of
from server.work.keep_photo import PhotoSent, keep_photo
from server.work.shop_folder import FolderUnreadable

PHOTOS, PAPERS = "photos", "files"
_BY_HASH = re.compile(r"[0-9a-f]{64}")


class FolderFiles(NamedTuple):
    """What lies in the two folders, checked by its content."""

    photos: tuple[Path, ...]
    papers: tuple[Path, ...]


def read_folder_files(folder: Path) -> FolderFiles:
    """Check every file of both folders; everything wrong is raised at once as FolderUnreadable."""
    found = FolderFiles(_files(folder / PHOTOS), _files(folder / PAPERS))
    wrong = [wrong for each in found.photos for wrong in _wrong(each, photo=True)]
    wrong += [wrong for each in found.papers for wrong in _wrong(each, photo=False)]
    if wrong:
        raise FolderUnreadable(wrong)
    return found


def load_folder_files(record: Record, files: Files, found: FolderFiles, now_ms: int) -> int:
    """Keep them, and tell of each picture that it arrived; what is here already changes nothing. Gives how many."""
    for paper in found.papers:
        files.keep(paper.read_bytes())
    for photo in found.photos:
        keep_photo(record, files, PhotoSent(photo.read_bytes()), now_ms)
    return len(found.photos) + len(found.papers)


def _files(folder: Path) -> tuple[Path, ...]:
    return tuple(sorted(each for each in folder.glob("*") if each.is_file() and not each.name.startswith(".")))


def _wrong(file: Path, *, photo: bool) -> Iterator[Complaint]:
    content, name = file.read_bytes(), f"{file.parent.name}/{file.name}"
    sha256 = hashlib.sha256(content).hexdigest()
    if _BY_HASH.fullmatch(file.stem) and file.stem != sha256:
        told = f"another than its name's, {sha256[:16]}..."
        yield Complaint(name, 1, "SHA-256", told, "the one it is named by", "Put back the file as it was.")
    try:
        if photo:
            check_picture(content)
        elif kind_of(content) == "file":
            raise NotAPicture("the file is neither a picture nor a PDF by its content")
    except NotAPicture as slip:
        expected = "a JPEG, PNG or WebP picture" if photo else "a picture or a PDF"
        yield Complaint(name, 1, "content", str(slip), expected, "Save it so, or take it out.")
