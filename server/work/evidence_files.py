"""Files that a decision or a claim rests on: pictures and PDFs, told by their content, kept under their SHA-256."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from server.documents.picture import is_picture
from server.record.files import Files
from server.work.arrived_photo import LineQuestions, arrived_photo
from server.work.refusal import NotThere, Unreadable

MOST_BYTES = 25_000_000
"""Of all the files of one form together: a laboratory's sheets with their micrographs."""
MOST_FILES = 12
FileKind = Literal["picture", "PDF", "file"]
_PDF_HEAD, _PDF_END, _NEAR_THE_END = b"%PDF-", b"%%EOF", 2048


@dataclass(frozen=True, slots=True)
class EvidenceFile:
    """One file: its SHA-256, what it is by its content, its length."""

    sha256: str
    kind: FileKind
    length: int


def kind_of(content: bytes) -> FileKind:
    """Tell what some bytes are by what they hold; a name or a header that came with them is not asked."""
    if content.startswith(_PDF_HEAD) and _PDF_END in content[-_NEAR_THE_END:]:
        return "PDF"
    return "picture" if is_picture(content) else "file"


def keep_evidence(files: Files, contents: Iterable[bytes]) -> tuple[str, ...]:
    """Keep pictures and PDFs byte for byte and give their names, each once; anything else is refused, none kept."""
    given = list(dict.fromkeys(contents))
    if len(given) > MOST_FILES:
        raise Unreadable(f"files: {len(given)} chosen; at most {MOST_FILES} go with one paper; nothing was kept")
    for number, content in enumerate(given, 1):
        if not content:
            raise Unreadable(f"file {number}: nothing is in it; open it where it came from, then choose it again")
        if kind_of(content) == "file":
            raise Unreadable(
                f"file {number}: neither a picture (JPEG, PNG, WebP) nor a whole PDF by its content; "
                "save it as one of these and choose it again; nothing was kept"
            )
    return tuple(files.keep(content) for content in given)


def evidence_bytes(reads: LineQuestions, files: Files, sha256: str) -> bytes | None:
    """Give a file by the name a paper has for it: as it came, or for a picture of the bench as it is kept."""
    arrived = arrived_photo(reads, sha256)
    return files.read(arrived.kept_sha256 if arrived else sha256)


def evidence_file(reads: LineQuestions, files: Files, sha256: str) -> EvidenceFile:
    """Tell what a file of a paper is; length 0: it is not kept here."""
    content = evidence_bytes(reads, files, sha256)
    return EvidenceFile(sha256, "file" if content is None else kind_of(content), len(content or b""))


def chosen_pictures(reads: LineQuestions, chosen: Iterable[str]) -> tuple[str, ...]:
    """Give the pictures that were ticked, each once; one that has not arrived cannot have been looked at."""
    names = tuple(dict.fromkeys(chosen))
    for sha256 in names:
        if arrived_photo(reads, sha256) is None:
            raise NotThere(f"photo: {sha256[:12]}… has not arrived, so nobody can have looked at it; take its tick off")
    return names


def declared_on(meaning: str, attachments: Sequence[str]) -> str:
    """Add to what is declared which files it rests on, so that the signature says so itself."""
    if not attachments:
        return meaning
    named = ", ".join(f"{sha256[:16]}…" for sha256 in attachments)
    return f"{meaning}, on {len(attachments)} {'file' if len(attachments) == 1 else 'files'}: {named}"
