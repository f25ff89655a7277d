"""A small record built as the one writer builds it, for the tests to alter."""

from collections.abc import Iterable

from server.evidence.chain_subject import ChainSubject
from server.evidence.chains import ChainHead, chain_of, extended
from server.evidence.checkpoints import Checkpoint, sign_checkpoint
from server.evidence.frontier import Frontier
from server.evidence.leaves import leaf_hash
from server.evidence.note_keys import NoteKey, NoteSigner
from server.evidence.recheck import recheck
from server.evidence.seals import SEALS, Seal, seal_line
from server.evidence.stored import Discrepancy, StoredLink, StoredRow
from server.evidence.subjects_root import SubjectsTree

ORIGIN = "works.example/record"
SIGNER = NoteSigner(ORIGIN, bytes(range(32)))
FRAME, LINE = ChainSubject("frame", "F-1"), ChainSubject("gas line", "L-1")


class SealedRecord:
    """Rows, heads and signed checkpoints that agree with one another until a test sees to it that they do not."""

    def __init__(self, keys: Iterable[NoteKey] = (SIGNER.key,)) -> None:
        self.rows: list[StoredRow] = []
        self.notes: list[bytes] = []
        self.heads: dict[ChainSubject, ChainHead] = {}
        self.keys = tuple(keys)
        self._frontier = Frontier()
        self._last: Checkpoint | None = None

    def add(self, line: bytes, *subjects: ChainSubject) -> None:
        """Append one entry with its leaf, its links and the heads they lead to."""
        leaf, links = leaf_hash(line), []
        for subject in subjects:
            head = extended(self.heads.get(subject) or chain_of(subject), leaf)
            self.heads[subject] = head
            links.append(StoredLink(subject, *head))
        self._frontier.append(leaf)
        position = self._frontier.size
        self.rows.append(StoredRow(position, f"id-{position}", line, leaf, tuple(links)))

    def seal(self) -> None:
        """Append a seal and sign a checkpoint over everything up to it."""
        tree = SubjectsTree(self.heads.items())
        previous = self._last.digest() if self._last else None
        self.add(seal_line(Seal(tree.root(), len(tree), 1000 * len(self.rows), previous)), SEALS)
        self._last = Checkpoint(ORIGIN, self._frontier.size, self._frontier.root())
        self.notes.append(sign_checkpoint(self._last, SIGNER))

    def found(self, outside_notes: Iterable[bytes] = ()) -> list[Discrepancy]:
        """Give what the recheck says of it."""
        return list(
            recheck(self.rows, self.notes, self.keys, origin=ORIGIN, kept_heads=self.heads, outside_notes=outside_notes)
        )

    def names(self, outside_notes: Iterable[bytes] = ()) -> list[tuple[str, int | None]]:
        """Give only the names and positions of what the recheck says."""
        return [(found.name, found.position) for found in self.found(outside_notes)]


def frame_and_line(entries: int = 10, sealed_every: int = 5) -> SealedRecord:
    """Build entries that are by turns of a frame, of a gas line, or of both, with a seal behind every few of them."""
    record = SealedRecord()
    for number in range(entries):
        subjects = ((FRAME,), (LINE,), (FRAME, LINE))[number % 3]
        record.add(b'{"entry":%d}' % number, *subjects)
        if number % sealed_every == sealed_every - 1:
            record.seal()
    return record
