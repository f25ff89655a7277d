"""The seal: a line of the record itself, written last before a checkpoint, that fixes what the checkpoint cannot say.

A checkpoint names only a size and a root. The subjects' chains, the time and the checkpoint before it are therefore
told by the last leaf under that root, where every holder of the record can check them. Seals have a chain too,
`SEALS`, by which an entry is known to be one, whatever a device may have sent.
"""

from typing import NamedTuple

from server.evidence.canonical import canonical_line, parse_line
from server.evidence.chain_subject import ChainSubject
from server.evidence.refusals import LineRefused
from server.facts.moment import parse_moment, show_moment

SEALS = ChainSubject("register", "seals")
_FORMAT = "strawline seal 1"
_NAMES = {"format", "previous", "sealed_at", "subjects", "subjects_root"}


class Seal(NamedTuple):
    """The root over all subjects before this line, how many they are, when [ms, UTC], and the checkpoint before."""

    subjects_root: bytes
    subjects: int
    sealed_ms: int
    previous: bytes | None


def seal_line(seal: Seal) -> bytes:
    """Write the seal as the canonical line to be recorded, in the chain of seals and in no other."""
    return canonical_line(
        {
            "format": _FORMAT,
            "previous": seal.previous.hex() if seal.previous else None,
            "sealed_at": show_moment(seal.sealed_ms),
            "subjects": seal.subjects,
            "subjects_root": seal.subjects_root.hex(),
        }
    )


def read_seal(line: bytes) -> Seal:
    """Read a seal from its line; refuse, by path, a line that is not one."""
    found = parse_line(line)
    if not isinstance(found, dict) or found.get("format") != _FORMAT or set(found) != _NAMES:
        raise LineRefused("format", line[:60], f'a seal: an object with "format":"{_FORMAT}" and {sorted(_NAMES)}')
    previous, subjects = found["previous"], found["subjects"]
    if type(subjects) is not int or subjects < 0:
        raise LineRefused("subjects", subjects, "how many subjects there are")
    return Seal(
        _hash(found["subjects_root"], "subjects_root"),
        subjects,
        _moment(found["sealed_at"]),
        None if previous is None else _hash(previous, "previous"),
    )


def _hash(value: object, path: str) -> bytes:
    try:
        found = bytes.fromhex(value) if isinstance(value, str) else b""
    except ValueError:
        found = b""
    if len(found) != 32:
        raise LineRefused(path, value, "a SHA-256 hash in 64 hexadecimal digits")
    return found


def _moment(value: object) -> int:
    try:
        return parse_moment(value if isinstance(value, str) else "")
    except ValueError as slip:
        raise LineRefused("sealed_at", value, str(slip)) from None
