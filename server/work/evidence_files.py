"""Files that a decision or a claim rests on: pictures and PDFs, told by their content, kept under their SHA-256."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from server.documents.picture import is_picture
from server.record.files import Files
from server.work.refusal import Unreadable

MOST_BYTES = 25_000_000
"""Of all the files of one form together: a laboratory's sheets with their micrographs."""
MOST_FILES = 12
FileKind = Literal["picture", "PDF", "file"]
_PDF_HEAD, _PDF_END, _NEAR_THE_END = b"%PDF-", b"%%EOF", 2048


@dataclass(frozen=True, slots=True)
class EvidenceFile:
    """One file: what it is by its content, its SHA-256, its length; none of it where the file is missing."""

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
    given = list(dict.fromkeys(content for content in contents if content))
    if len(given) > MOST_FILES:
        raise Unreadable(f"files: {len(given)} chosen; at most {MOST_FILES} go with one paper; nothing was kept")
    for number, content in enumerate(given, 1):
        if kind_of(content) == "file":
            raise Unreadable(
                f"file {number}: neither a picture (JPEG, PNG, WebP) nor a whole PDF by its content; "
                "save it as one of these and choose it again; nothing was kept"
            )
    return tuple(files.keep(content) for content in given)


def evidence_file(files: Files, sha256: str) -> EvidenceFile | None:
    """Tell what a kept file is; none: there is no such file."""
    content = files.read(sha256)
    return None if content is None else EvidenceFile(sha256, kind_of(content), len(content))
