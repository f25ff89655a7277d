"""Questions for lines as they were stored: one by its id, all sendings of some ids, the history of a frame."""

from collections import defaultdict
from collections.abc import Collection, Sequence
from typing import NamedTuple

from sqlalchemy import bindparam, func, select

from server.evidence.chain_subject import ChainSubject
from server.evidence.chains import ChainHead
from server.evidence.subject_proof import SubjectProof
from server.record.asking import Asking, up_to
from server.record.bytes_held import holds_any
from server.record.envelope import SEAL
from server.record.lines import FIRST_STATES, NOT_UNDERSTOOD, StoredLine
from server.record.proving_subject import subject_proof
from server.record.sealing import SignedCheckpoint, first_checkpoint, newest_checkpoint
from server.record.tables.columns import LINE, LINK
from server.record.tables.sealed import TOLD

_STORED = tuple(LINE[name] for name in StoredLine._fields)


class Sending(NamedTuple):
    """One sending of an entry as the record knows it, without its bytes."""

    position: int
    state: str
    problem: str | None
    sent_ms: int | None
    received_ms: int
    body_sha256: bytes
    leaf: bytes
    frame: str | None


_SENDINGS = (
    select(LINE.kind, LINE.id, *(LINE[name] for name in Sending._fields))
    .where(LINE.id.in_(bindparam("names", expanding=True)))
    .order_by(LINE.position)
)


def first_line(sendings: Sequence[StoredLine]) -> StoredLine | None:
    """Give of the lines under one id the one that stands: the first taken, or the last told of a register line."""
    first = [line for line in sendings if line.kind == "entry" and line.state in FIRST_STATES]
    return next(iter(first or sendings[-1:]), None)


class LineReads(Asking):
    """Lines with their bytes, envelopes and leaves."""

    def line(self, name: str) -> StoredLine | None:
        """Give the line an id was first taken under, or last told under for a register line; none when unknown."""
        return first_line(self.sendings_of(name))

    def sendings_of(self, name: str) -> list[StoredLine]:
        """Give every line under one id: the first, its repeats and refused copies."""
        return self._lines(LINE.id == name)

    def lines_of_frame(self, frame: str, known_at: int | None = None) -> list[StoredLine]:
        """Give every line of one frame, understood or not, for its history."""
        return self._lines(LINE.frame == frame, LINE.position <= up_to(known_at))

    def not_understood_of_frame(self, frame: str, known_at: int | None = None) -> list[StoredLine]:
        """Give the lines of one frame that were taken and could not be read."""
        return self._lines(LINE.frame == frame, LINE.state == NOT_UNDERSTOOD, LINE.position <= up_to(known_at))

    def lines_between(self, first: int, last: int) -> list[StoredLine]:
        """Give the lines at the positions from first to last."""
        return self._lines(LINE.position.between(first, last))

    def told_lines(self) -> list[StoredLine]:
        """Give every line that is neither an entry nor a seal: the registers, as they were told."""
        return self._lines(TOLD, LINE.kind != SEAL)

    def count_after(self, position: int) -> int:
        """Count the lines after a position, without the record's own seals."""
        asked = select(func.count(LINE.position)).where(LINE.position > position, LINE.kind != SEAL)
        return self._connection.execute(asked).scalar_one()

    def lines_holding(self, words: Collection[bytes]) -> list[str]:
        """Give the ids of the lines whose bytes hold any of these; every line is looked through."""
        asked = select(LINE.id).where(holds_any(self._connection.dialect.name, words)).order_by(LINE.position)
        return list(dict.fromkeys(self._connection.execute(asked).scalars()))

    def links_between(self, first: int, last: int) -> dict[int, list[tuple[ChainSubject, ChainHead]]]:
        """Give the chain places of the lines at the positions from first to last."""
        asked = select(LINK.position, LINK.kind, LINK.id, LINK.number, LINK.head)
        found: dict[int, list[tuple[ChainSubject, ChainHead]]] = defaultdict(list)
        for position, kind, name, number, head in self._connection.execute(
            asked.where(LINK.position.between(first, last)).order_by(LINK.position, LINK.kind, LINK.id)
        ):
            found[position].append((ChainSubject(kind, name), ChainHead(number, head)))
        return found

    def sendings(self, names: Collection[str]) -> dict[str, list[Sending]]:
        """Give the sendings of several entries, in one question; what was never sent has none."""
        found: dict[str, list[Sending]] = defaultdict(list)
        for kind, name, *rest in self._connection.execute(_SENDINGS, {"names": list(names)}):
            if kind == "entry":
                found[name].append(Sending(*rest))
        return found

    def subjects_of(self, positions: Collection[int]) -> dict[int, tuple[ChainSubject, ...]]:
        """Give the subjects in whose chains some lines stand, in one question."""
        asked = select(LINK.position, LINK.kind, LINK.id).where(LINK.position.in_(positions))
        found: dict[int, tuple[ChainSubject, ...]] = {}
        for position, kind, name in self._connection.execute(asked):
            found[position] = (*found.get(position, ()), ChainSubject(kind, name))
        return found

    def last_received_ms(self) -> int:
        """Give when the last line arrived [ms, UTC]; 0 when there is none."""
        asked = select(LINE.received_ms).order_by(LINE.position.desc()).limit(1)
        return self._connection.execute(asked).scalar() or 0

    def newest_checkpoint(self) -> SignedCheckpoint | None:
        """Give the newest signed checkpoint; none when nothing was ever signed."""
        return newest_checkpoint(self._connection)

    def subject_proof(self, subject: ChainSubject) -> SubjectProof | None:
        """Prove how a subject's chain stood under the newest checkpoint; none where it has nothing under one."""
        return subject_proof(self._connection, self._remembered.sealed, subject)

    def lines_of_subject(self, subject: ChainSubject) -> list[StoredLine]:
        """Give every line in one subject's chain, in the chain's order."""
        mine = (LINK.kind == subject.kind, LINK.id == subject.id, LINK.position == LINE.position)
        asked = select(*_STORED).where(*mine).order_by(LINK.number)
        return [StoredLine(*row) for row in self._connection.execute(asked)]

    def first_checkpoint(self, since_ms: int, least_size: int) -> SignedCheckpoint | None:
        """Give the first signed checkpoint made at or after a moment over so many lines at least."""
        return first_checkpoint(self._connection, since_ms, least_size)

    def _lines(self, *conditions: object) -> list[StoredLine]:
        asked = select(*_STORED).where(*conditions).order_by(LINE.position)  # type: ignore[arg-type]
        return [StoredLine(*row) for row in self._connection.execute(asked)]
