"""Tells what a dossier is sealed under: each line of the frame's chain, and the proof that these are all of them."""

from typing import Any

from server.evidence.chain_subject import ChainSubject
from server.record.lines import StoredLine
from server.record.reads import Reads

_PAPERS = ("decisions", "permissions", "concessions", "nonconformities", "shipments")


def told_seal(reads: Reads, frame: str, key: str) -> dict[str, Any]:
    """Give the newest checkpoint, the frame's lines with their own texts, and the proof; `key` is the public one."""
    checkpoint = reads.newest_checkpoint()
    proof = reads.subject_proof(ChainSubject("frame", frame))
    size = checkpoint.checkpoint.size if checkpoint else 0
    lines = reads.lines_of_subject(ChainSubject("frame", frame))
    return {
        "checkpoint": checkpoint.note.decode() if checkpoint else "",
        "lines": [_line(each, size) for each in lines],
        "proof": {**proof.told(), "key": key} if proof else None,
    }


def _line(line: StoredLine, size: int) -> dict[str, Any]:
    return {
        "position": line.position,
        "id": line.id,
        "kind": line.kind,
        "leaf": line.leaf.hex(),
        "under_the_checkpoint": line.position < size,
        "envelope": line.envelope.decode(),
        "body": _text(line.body),
    }


def _text(body: bytes) -> str | None:
    """The bytes as text; what a device sent that is no text stands by its hash in the envelope alone."""
    try:
        return body.decode()
    except UnicodeDecodeError:
        return None


def without_texts(told: dict[str, Any]) -> dict[str, Any]:
    """Leave out the texts of the lines, which hold names and may hold other frames; hashes and proof stay."""
    lines = [{**_bare(each), "id": ""} for each in told["lines"]]
    return {"checkpoint": told["checkpoint"], "lines": lines, "proof": told["proof"]}


def of_told(sealed: dict[str, Any], told: dict[str, Any]) -> dict[str, Any]:
    """Leave the texts of those lines alone that a joint's dossier tells; the others stand by their hashes."""
    entries = [each for joint in told["joints"] for attempt in joint["attempts"] for each in attempt["entries"]]
    papers = [each for name in _PAPERS for each in told[name]]
    named = {each["id"] for each in (*entries, *told["way"], *papers)}
    return sealed | {"lines": [each if each["id"] in named else _bare(each) for each in sealed["lines"]]}


def _bare(line: dict[str, Any]) -> dict[str, Any]:
    return {**line, "envelope": None, "body": None}
