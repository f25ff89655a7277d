"""The checkpoints against the entries: each root recomputed at its size, and each seal against what it fixes."""

from collections import defaultdict
from collections.abc import Iterable, Iterator

from server.evidence.checkpoints import Checkpoint
from server.evidence.refusals import LineRefused
from server.evidence.row_walk import RowWalk
from server.evidence.seals import SEALS, Seal, read_seal
from server.evidence.stored import Discrepancy, DiscrepancyName, StoredRow
from server.evidence.subjects_root import SubjectsTree


class CheckpointWalk:
    """The record's own checkpoints and those held outside, compared as the entries pass by."""

    def __init__(self, own: Iterable[Checkpoint], outside: Iterable[Checkpoint]) -> None:
        self._own = {checkpoint.size: checkpoint for checkpoint in own}
        self._outside: dict[int, list[Checkpoint]] = defaultdict(list)
        for checkpoint in outside:
            self._outside[checkpoint.size].append(checkpoint)
        self._subjects = SubjectsTree()
        self._before: Checkpoint | None = None
        self._good_size = 0
        self._seen: dict[DiscrepancyName, int] = {}
        self._compared: set[int] = set()

    def look_before(self, row: StoredRow, walk: RowWalk) -> Iterator[Discrepancy]:
        """Compare a seal with the chains as they stand before it."""
        own = self._own.get(row.position)
        is_seal = any(link.subject == SEALS for link in row.links)
        if own is None and not is_seal:
            return
        for subject in walk.grown:
            self._subjects.put(subject, walk.chains[subject])
        walk.grown.clear()
        if own is None:
            yield from self._first(
                "checkpoint missing", row.position, f"{row}: is a seal, but its checkpoint is missing"
            )
        try:
            yield from self._compare_seal(row, read_seal(row.line))
        except LineRefused as slip:
            yield from self._first(
                "seal missing", row.position, f"{row}: expected a seal at a checkpoint's end; {slip}"
            )
        self._before = own or self._before

    def look_after(self, row: StoredRow, walk: RowWalk) -> Iterator[Discrepancy]:
        """Compare the root over all entries up to this one with what was signed when it was the last."""
        size = row.position
        own, outside = self._own.get(size), self._outside.get(size, [])
        if walk.first_gap is not None or (own is None and not outside):
            return
        self._compared.add(size)
        root = walk.frontier.root()
        span = f"entries at positions {self._good_size + 1} to {size} give another root"
        if any(checkpoint.root != root for checkpoint in outside):
            said = f"{span} than a checkpoint held outside: the record was rewritten after it was handed out"
            yield from self._first("two histories", size, said)
        elif own and own.root != root:
            yield from self._first("checkpoint root", size, f"{span} than their checkpoint")
        else:
            self._good_size = size

    def finish(self, walk: RowWalk) -> Iterator[Discrepancy]:
        """Say which checkpoints no entry reached, and how often a thing was found that was told only once."""
        later = sorted({*self._own, *self._outside} - self._compared)
        if later and walk.first_gap is not None:
            said = f"position {walk.first_gap} breaks the order, so {len(later)} checkpoints cannot be compared"
            yield Discrepancy(
                "checkpoint not comparable", walk.first_gap, f"{said}, the first of them of size {later[0]}"
            )
        elif later:
            size = walk.frontier.size
            said = f"the record ends at position {size}, but a checkpoint was signed over {later[-1]} entries"
            yield Discrepancy("checkpoint beyond", size + 1, said)
        for name, count in self._seen.items():
            if count > 1:
                yield Discrepancy(name, None, f"{name}: the same at {count - 1} later checkpoints")

    def _first(self, name: DiscrepancyName, position: int, said: str) -> Iterator[Discrepancy]:
        # One altered entry changes every later root; only the first of them tells where.
        self._seen[name] = self._seen.get(name, 0) + 1
        if self._seen[name] == 1:
            yield Discrepancy(name, position, said)

    def _compare_seal(self, row: StoredRow, seal: Seal) -> Iterator[Discrepancy]:
        if seal.subjects_root != self._subjects.root():
            counts = f"{len(self._subjects)} subjects are found, {seal.subjects} were sealed"
            said = f"{row}: the chains of all subjects give another root than the sealed one; {counts}"
            yield from self._first("seal subjects", row.position, said)
        if seal.previous != (self._before.digest() if self._before else None):
            before = f"the one of size {self._before.size}" if self._before else "none"
            said = f"{row}: the seal names another checkpoint before it than {before}, which is the last one kept"
            yield from self._first("seal previous", row.position, said)
