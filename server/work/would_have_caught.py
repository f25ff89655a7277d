"""What the limits of a new revision would have said of joints already made, beside what the one in force says."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from server.facts.judged import Verdict, Word
from server.facts.orders import Packet
from server.facts.procedure import Procedure
from server.facts.registers import Registers
from server.judgement.book import RULES, Book
from server.judgement.judge import judge_all
from server.occasions.build import Shop
from server.occasions.known import Known
from server.record.reads import Reads
from server.work.known_shop import known_shop

_ASKS = tuple(each for each in RULES if each.limit_from == "procedure")
Asked = tuple[str, str]
"""A subject and the question about it."""
_GOOD = (Word.WITHIN, Word.MARGINAL, Word.NOT_ASKED)


class Otherwise(NamedTuple):
    """One question about one joint that would be answered otherwise: how it stands, and how it would."""

    subject: str
    question: str
    was: Word
    now: Word
    message: str


class Caught(NamedTuple):
    """How many frames were looked at, of how many welded by the procedure, and what differs either way."""

    frames: int
    of: int
    caught: tuple[Otherwise, ...]
    let_go: tuple[Otherwise, ...]


def would_have_caught(reads: Reads, draft: Procedure, newest: int) -> Caught:
    """Judge the newest so many frames by the draft as if it had been in force; nothing of it is kept."""
    position = reads.last_position()
    known = known_shop(reads, position)
    welded = _welded_by(known.registers, draft.name)
    packets = welded[-newest:]
    book = Book("draft", _ASKS, draft.valid_from)
    was = _words(reads, known, packets, book)
    now = _words(reads, replace(known, registers=_with(known.registers, draft)), packets, book)
    differs = [each for key in sorted(was.keys() | now.keys()) if (each := _otherwise(key, was, now))]
    return Caught(
        len(packets),
        len(welded),
        tuple(each for each in differs if each.was in _GOOD and each.now not in _GOOD),
        tuple(each for each in differs if each.was not in _GOOD and each.now in _GOOD),
    )


def _welded_by(registers: Registers, procedure: str) -> list[Packet]:
    drawn = registers.designs.values()
    designs = {each.name for each in drawn if any(joint.procedure == procedure for joint in each.joints)}
    return sorted((each for each in registers.packets.values() if each.design in designs), key=_issued)


def _issued(packet: Packet) -> tuple[int, str]:
    return packet.issued, packet.frame


def _with(registers: Registers, draft: Procedure) -> Registers:
    return replace(registers, procedures={**registers.procedures, (draft.name, draft.revision): draft})


def _words(reads: Reads, known: Known, packets: Sequence[Packet], book: Book) -> Mapping[Asked, Verdict]:
    shop = Shop(known, book.on)
    entries = reads.frames_entries([each.frame for each in packets], reads.last_position())
    found: Iterable[Verdict] = (
        verdict for packet in packets for verdict in judge_all(shop.frame(packet, entries[packet.frame]), book)
    )
    return {(verdict.subject, verdict.question): verdict for verdict in found}


def _otherwise(key: Asked, was: Mapping[Asked, Verdict], now: Mapping[Asked, Verdict]) -> Otherwise | None:
    """Put a question's two answers side by side; what is not answered at all is not asked. None where they agree."""
    before, after = was.get(key), now.get(key)
    word_before, word_after = (each.word if each else Word.NOT_ASKED for each in (before, after))
    message = (after.message if after else "") or (before.message if before else "")
    return Otherwise(*key, word_before, word_after, message) if word_before is not word_after else None
