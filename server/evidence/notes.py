"""Signed notes as C2SP signed-note has them: a text, an empty line, and a line for each signature."""

from base64 import b64decode, b64encode
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from server.evidence.note_keys import NoteKey, NoteSigner
from server.evidence.refusals import NoteRefused

_MOST_BYTES = 256_000
_DASH = "\u2014"


class _Signature(NamedTuple):
    name: str
    key_id: bytes
    signature: bytes


def sign_note(text: str, signer: NoteSigner) -> bytes:
    """Sign a text that ends with a line break, and give the whole note."""
    _refuse_control_characters(text)
    if not text.endswith("\n"):
        raise NoteRefused("text", text[-20:], "a text that ends with a line break")
    signature = b64encode(signer.key.id + signer.sign(text.encode())).decode()
    return f"{text}\n{_DASH} {signer.key.name} {signature}\n".encode()


def open_note(note: bytes, keys: Iterable[NoteKey]) -> str:
    """Give the text of a note that a known key has signed.

    Signatures of unknown keys, such as witnesses, are passed over. A signature in a known key's name that does not
    verify spoils the whole note.
    """
    text, signatures = _parted(note)
    known = {(key.name, key.id): key for key in keys}
    believed = [(known[found[:2]], found) for found in signatures if found[:2] in known]
    for key, found in believed:
        if not key.has_signed(text.encode(), found.signature):
            raise NoteRefused("signature", key.name, "a signature over exactly this text; it was altered after signing")
    if not believed:
        names = sorted(name for name, _ in known)
        raise NoteRefused("signatures", [found.name for found in signatures], f"one by a known key of {names}")
    return text


def text_of(note: bytes) -> str:
    """Give the text of a note whoever signed it; it proves nothing."""
    return _parted(note)[0]


def _parted(note: bytes) -> tuple[str, list[_Signature]]:
    if len(note) > _MOST_BYTES:
        raise NoteRefused("note", f"{len(note)} bytes", f"at most {_MOST_BYTES} bytes")
    try:
        whole = note.decode()
    except UnicodeDecodeError as slip:
        raise NoteRefused(f"byte {slip.start}", note[slip.start : slip.end], "UTF-8") from None
    _refuse_control_characters(whole)
    text, gap, signed = whole.rpartition("\n\n")
    if not gap or not signed.endswith("\n"):
        raise NoteRefused("note", whole, "a text, an empty line, and signature lines that end with a line break")
    return f"{text}\n", list(_signatures(signed))


def _signatures(signed: str) -> Iterator[_Signature]:
    for line in signed.removesuffix("\n").split("\n"):
        dash, _, rest = line.partition(" ")
        name, _, encoded = rest.partition(" ")
        try:
            made = b64decode(encoded, validate=True)
        except ValueError:
            made = b""
        # A second writing of the same bytes would let a note change without its signature noticing.
        if dash != _DASH or not name or "+" in name or len(made) < 5 or b64encode(made).decode() != encoded:
            raise NoteRefused("signature line", line, f"{_DASH}, a key name and base64 of key id and signature")
        yield _Signature(name, made[:4], made[4:])


def _refuse_control_characters(text: str) -> None:
    found = next((letter for letter in text if letter < " " and letter != "\n"), None)
    if found is not None:
        raise NoteRefused("note", repr(found), "no control character but the line break")
