"""A proof that these are all lines of one subject, in their order, under a signed checkpoint; needs only itself."""

import json
from collections.abc import Iterable, Iterator, Mapping
from hashlib import sha256
from typing import Any, NamedTuple

from server.evidence.chain_subject import CHAIN_KINDS, ChainSubject
from server.evidence.chains import ChainHead, chain_of
from server.evidence.checkpoints import open_checkpoint
from server.evidence.leaves import leaf_hash
from server.evidence.note_keys import NoteKey
from server.evidence.proofs import inclusion_holds
from server.evidence.refusals import LineRefused, NoteRefused
from server.evidence.seals import read_seal
from server.evidence.subjects_root import subject_leaf

Steps = tuple[bytes, ...]


class SubjectProof(NamedTuple):
    """A chain's end as a seal fixed it, the way from it to the seal, and from the seal to the signed checkpoint."""

    subject: ChainSubject
    chain: ChainHead
    leaf_index: int
    path: Steps
    seal: bytes
    seal_path: Steps
    note: bytes

    def told(self) -> dict[str, Any]:
        """Write it as plain values, for a file that is handed out."""
        return {
            "subject": list(self.subject),
            "count": self.chain.number,
            "head": self.chain.head.hex(),
            "index": self.leaf_index,
            "path": [step.hex() for step in self.path],
            "seal": self.seal.decode(),
            "seal_path": [step.hex() for step in self.seal_path],
            "checkpoint": self.note.decode(),
        }


def read_proof(told: Mapping[str, Any]) -> SubjectProof:
    """Read a proof from plain values; raises `ValueError` or `KeyError` where they are none."""
    kind, name = told["subject"]
    if kind not in CHAIN_KINDS:
        raise ValueError(f"subject: {kind!r} has no chain")
    path, seal_path = (tuple(map(bytes.fromhex, told[key])) for key in ("path", "seal_path"))
    chain = ChainHead(int(told["count"]), bytes.fromhex(told["head"]))
    seal, note = str(told["seal"]).encode(), str(told["checkpoint"]).encode()
    return SubjectProof(ChainSubject(kind, str(name)), chain, int(told["index"]), path, seal, seal_path, note)


def what_fails(proof: SubjectProof, leaves: Iterable[bytes], key: NoteKey) -> Iterator[str]:
    """Say what does not hold: the signature, the seal under it, the chain's end under the seal, the lines to it."""
    try:
        checkpoint, seal = open_checkpoint(proof.note, [key]), read_seal(proof.seal)
    except (NoteRefused, LineRefused) as slip:
        yield f"checkpoint or seal: {slip}"
        return
    size = checkpoint.size
    if not inclusion_holds(leaf_hash(proof.seal), size - 1, size, proof.seal_path, checkpoint.root):
        yield "seal: it is not the last line under the signed checkpoint"
    end = subject_leaf(proof.subject, proof.chain)
    if not inclusion_holds(end, proof.leaf_index, seal.subjects, proof.path, seal.subjects_root):
        yield f"chain: its end is not the one that was sealed for {proof.subject}"
    found = chain_of(proof.subject, leaves)
    if found != proof.chain:
        said = f"{found.number} lines are told, {proof.chain.number} were sealed"
        yield f"lines: {said}; one was left out, put in, altered or moved"


def line_fails(leaf: bytes, envelope: str | None, body: str | None) -> str | None:
    """Say how a line's own text differs from its leaf hash; none where it fits, or where its text is not told."""
    if envelope is None:
        return None
    if leaf_hash(envelope.encode()) != leaf:
        return "its envelope is not the one that was sealed"
    if body is not None and json.loads(envelope).get("sha256") != sha256(body.encode()).hexdigest():
        return "its text is not the one that was sealed"
    return None
