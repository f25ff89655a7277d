"""Draws joints without a finding for a second look, by a lot nobody can choose: a checkpoint's root is the seed."""

from collections.abc import Iterable
from hashlib import sha256

from server.facts.registers import Registers
from server.facts.second_look import SampleDraw
from server.occasions.accepted import Accepted
from server.occasions.days import Days
from server.record.book_of_lines import Record
from server.record.reads import Reads
from server.record.sealing import SignedCheckpoint
from server.record.written import Written
from server.work.audit_week import Unflagged, Week, unflagged, week_named
from server.work.refusal import Refusal
from server.work.telling import told_line

FIGURE = "sample_audit"


class NotDrawn(Refusal):
    """A sample that cannot be drawn now; says what it waits for."""


def by_lot(subjects: Iterable[str], root: str, week: str, count: int) -> tuple[str, ...]:
    """Give so many subjects: those whose SHA-256 over root, week and subject is lowest."""

    def lot(subject: str) -> bytes:
        return sha256(f"{root}\n{week}\n{subject}".encode()).digest()

    return tuple(sorted(subjects, key=lot)[:count])


def draw_sample(reads: Reads, name: str, drawn_by: str, now_ms: int) -> Written[str]:
    """Append the draw of a week and answer its id; raises `NotDrawn` with everything it waits for."""
    registers, known_at = reads.registers(), reads.last_position()
    days = Days(registers.zone)
    week = week_named(name, days)
    count = how_many(registers, days.day_of(week.until_ms) - 1)
    if problems := [*_too_soon(reads, registers, week, now_ms), *_no_figure(count)]:
        raise NotDrawn(*problems)
    found = unflagged(reads, week, known_at)
    if not found.subjects:
        raise NotDrawn(f"week: no joint without a finding was welded in {name}; there is nothing to draw from")
    seed = seed_of(reads, week)
    if seed is None:
        raise NotDrawn("seed: no checkpoint has been signed since the week was over; try again once the record has one")
    told = _paper(week, found, seed, known_at, by_lot(found.subjects, seed.checkpoint.root.hex(), name, count))
    return Written(answer=lambda _: str(told["id"]), lines=(told_line(told | {"drawn_by": drawn_by}, now_ms),))


def seal_after(record: Record, name: str) -> None:
    """Sign a checkpoint where none was signed since the week; nobody can have chosen its root."""
    with record.reads() as reads:
        registers = reads.registers()
        week = week_named(name, Days(registers.zone))
        sealed = seed_of(reads, week)
    if sealed is None:
        record.checkpoint().result()


def drawn_again(reads: Reads, draw: SampleDraw) -> bool:
    """Tell whether the record gives the same list and the same lot again, from what was known at the draw."""
    registers = reads.registers()
    week = week_named(draw.week, Days(registers.zone))
    found = unflagged(reads, week, draw.known_at)
    lot = by_lot(found.subjects, draw.checkpoint_root, draw.week, len(draw.drawn))
    sealed = seed_of(reads, week)
    same_seed = sealed is not None and sealed.checkpoint.root.hex() == draw.checkpoint_root
    return same_seed and found.sha256 == draw.subjects_sha256 and lot == draw.drawn


def how_many(registers: Registers, day: int) -> int:
    """Give how many joints the shop looks at again for a week; 0 where its acceptance file does not say."""
    figure = Accepted(registers.acceptance.values(), None).at(day).get(FIGURE)
    return round(figure.value) if figure else 0


def seed_of(reads: Reads, week: Week) -> SignedCheckpoint | None:
    """Give the checkpoint a week is drawn by: the first one signed once the week was over."""
    return reads.first_checkpoint(week.until_ms, 1)


def _too_soon(reads: Reads, registers: Registers, week: Week, now_ms: int) -> list[str]:
    problems = []
    if now_ms < week.until_ms:
        problems.append(f"week: {week.name} is not over yet; it is drawn from Monday on")
    if (before := registers.sample_draws.get(_id(week))) is not None:
        problems.append(f"week: {before.drawn_by} drew {week.name} before; it is drawn once, or it could be chosen")
    if reads.judged_to() < reads.last_position():
        problems.append("judging: what came in last is still being judged; try again in a moment")
    return problems


def _no_figure(count: int) -> list[str]:
    if count > 0:
        return []
    return [f"acceptance: {FIGURE} is not written; tell in acceptance.toml how many joints a week are looked at again"]


def _paper(
    week: Week, found: Unflagged, seed: SignedCheckpoint, known_at: int, drawn: tuple[str, ...]
) -> dict[str, object]:
    return {
        "kind": "sample draw",
        "id": _id(week),
        "week": week.name,
        "checkpoint_size": seed.checkpoint.size,
        "checkpoint_root": seed.checkpoint.root.hex(),
        "known_at": known_at,
        "welded": found.welded,
        "without_finding": len(found.subjects),
        "subjects_sha256": found.sha256,
        "drawn": list(drawn),
    }


def _id(week: Week) -> str:
    return f"SD-{week.name}"
