"""Decides for each sending of a request whether it is new, a repeat or a refused copy, and what its receipt says."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from hashlib import sha256
from typing import NamedTuple

from server.evidence.chain_subject import ChainSubject
from server.facts.delivery import Receipt, Taken
from server.facts.layered import layered
from server.facts.moment import show_moment
from server.facts.noun import Noun
from server.facts.orders import Packet
from server.facts.registers import Registers
from server.record.lines import FIRST_STATES, NewLine, Placed
from server.record.reading_lines import Sending
from server.work.remarks import remarks_on
from server.work.sent_delivery import SentDelivery
from server.work.understanding import Understood


class _Entry(NamedTuple):
    """An entry as first taken: at a place in the record, or as the n-th line of this request."""

    body_sha256: bytes
    frame: str | None
    subjects: tuple[ChainSubject, ...]
    problem: str | None
    stands: Placed | int
    understood: bool


class _Answer(NamedTuple):
    delivery: str
    taken: Taken
    problem: str | None
    stands: Placed | int
    understood: bool = True


def first_of(sendings: Iterable[Sending]) -> Sending | None:
    """Give the sending an entry was first taken with."""
    return next((sending for sending in sendings if sending.state in FIRST_STATES), None)


class Receiving:
    """One request's sendings, taken in their order; `lines` are what is to be appended for them."""

    def __init__(
        self,
        known: Mapping[str, Sequence[Sending]],
        subjects: Mapping[int, tuple[ChainSubject, ...]],
        registers: Registers,
    ) -> None:
        self.lines: list[NewLine] = []
        self._answers: list[_Answer] = []
        self._known = known
        self._registers = registers
        self._entries = {
            name: _Entry(
                first.body_sha256,
                first.frame,
                subjects.get(first.position, ()),
                first.problem,
                Placed(first.position, name, first.leaf, first.received_ms),
                first.state == "taken",
            )
            for name, sendings in known.items()
            if (first := first_of(sendings))
        }

    def take(self, sent: SentDelivery, understood: Understood) -> None:
        """Take one sending, and remember what its receipt will say."""
        digest = sha256(sent.body).digest()
        entry = self._entries.get(understood.line.id)
        if told := self._told_already(sent, understood.line.id, digest):
            self._answers.append(told)
        elif entry is None:
            self._take_first(sent, understood, digest)
        elif entry.body_sha256 == digest:
            self._append(_repeat(understood.line, digest)._replace(frame=entry.frame))
            self._answers.append(_again(sent, entry))
        else:
            line = _refused(understood.line, entry)
            self._answers.append(_Answer(sent.id, "refused copy", line.problem, self._append(line)))

    def tell(self, line: NewLine, noun: Noun) -> None:
        """Append a line that is no sending, such as a paper of a shop folder, where it stands between sendings.

        Of its noun the entries behind it know that a packet was issued, as nearly every frame's is between them.
        """
        if isinstance(noun, Packet):
            packets = layered(self._registers.packets, {noun.frame: noun})
            self._registers = replace(self._registers, packets=packets)
        self._append(line)

    def receipts(self, placed: Sequence[Placed]) -> tuple[Receipt, ...]:
        """Give the receipts, now that it is known where the lines stand."""
        return tuple(_receipt(answer, placed) for answer in self._answers)

    def _append(self, line: NewLine) -> int:
        self.lines.append(line)
        return len(self.lines) - 1

    def _told_already(self, sent: SentDelivery, name: str, digest: bytes) -> _Answer | None:
        """Find the very same sending, as of a shop folder loaded twice, or the same refused bytes: nothing new."""
        for sending in self._known.get(name, ()):
            if sending.body_sha256 != digest:
                continue
            if sending.state == "refused copy":
                stands = Placed(sending.position, name, sending.leaf, sending.received_ms)
                return _Answer(sent.id, "refused copy", sending.problem, stands)
            if (sending.sent_ms, sending.received_ms) == (sent.sent_ms, sent.received_ms):
                return _again(sent, self._entries[name])
        return None

    def _take_first(self, sent: SentDelivery, understood: Understood, digest: bytes) -> None:
        line = understood.line
        if understood.named is not None and (remarks := remarks_on(understood.named, sent, self._registers)):
            line = line._replace(problem=remarks)
        if line.of and (mended := self._entries.get(line.of)):
            subjects = tuple(sorted({*line.subjects, *mended.subjects}))
            line = line._replace(frame=line.frame or mended.frame, subjects=subjects)
        stands = self._append(line)
        clear = understood.named is not None
        self._entries[line.id] = _Entry(digest, line.frame, line.subjects, line.problem, stands, clear)
        self._answers.append(_Answer(sent.id, _taken(understood), line.problem, stands, clear))


def _taken(understood: Understood) -> Taken:
    return "taken, not understood" if understood.named is None else "taken"


def _again(sent: SentDelivery, entry: _Entry) -> _Answer:
    return _Answer(sent.id, "taken before", entry.problem, entry.stands, entry.understood)


def _repeat(line: NewLine, digest: bytes) -> NewLine:
    """Keep of a repeat what it tells about the device's clock; its bytes are there already."""
    return line._replace(state="taken before", body=b"", body_sha256=digest, subjects=(), problem=None)


def _refused(line: NewLine, entry: _Entry) -> NewLine:
    problem = (
        f"an entry {line.id!r} was taken before with other bytes (SHA-256 {entry.body_sha256.hex()[:16]}...) and "
        "stands; this copy is kept beside it; log what is to be put right as a correction with an id of its own"
    )
    frame = entry.frame or line.frame
    return line._replace(state="refused copy", problem=problem, frame=frame, subjects=entry.subjects)


def _receipt(answer: _Answer, placed: Sequence[Placed]) -> Receipt:
    stands = placed[answer.stands] if isinstance(answer.stands, int) else answer.stands
    return Receipt(
        delivery=answer.delivery,
        entry=stands.id,
        taken=answer.taken,
        position=stands.position,
        leaf=stands.leaf.hex(),
        received=show_moment(stands.received_ms),
        problem=answer.problem,
        understood=answer.understood,
    )
