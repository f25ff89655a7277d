"""Lets a restored copy go on as the record, once it was told what is known outside; the telling is a line itself."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from server.evidence.checkpoints import Checkpoint, open_checkpoint
from server.evidence.refusals import NoteRefused
from server.facts.moment import show_moment
from server.record.book_of_lines import Record
from server.record.copy_mark import take_mark_off
from server.record.opening import file_of
from server.record.reads import Reads
from server.record.record_check import check_record
from server.record.sealing import SignedCheckpoint
from server.record.signing_key import known_keys, read_signer, retire_signer
from server.record.written import Written
from server.upkeep.restore import made_from
from server.work.refusal import NotThere, Refusal
from server.work.telling import told_line


class NotContinued(Refusal):
    """The copy stays closed, and nothing was changed."""


@dataclass(frozen=True, slots=True)
class Outside:
    """What is known outside: checkpoints as they were signed, or the statement that there are none; and who says so."""

    notes: tuple[bytes, ...]
    told_by: str
    none_known: bool = False
    new_name: bool = False


@dataclass(frozen=True, slots=True)
class _Ground:
    lines: int
    lost: int
    signed_as: str | None


def continue_copy(url: str, folder: Path, outside: Outside, now_ms: int) -> SignedCheckpoint:
    """Check the whole copy against what is known outside, append the telling, and sign; or refuse with a reason."""
    if bool(outside.notes) == outside.none_known:
        raise NotContinued("name the checkpoints known outside, or say that none is known: one of both, not both")
    ground = _ground(url, folder, outside)
    former = ground.signed_as
    if outside.new_name:
        _take_another_name(folder, former)
    elif ground.lost or _key_is_away(folder, former):
        raise NotContinued(_why_another_name(ground))
    record = Record.open(url, folder, continuing=True)
    try:
        told = _told(folder, outside, ground, former if outside.new_name else None)
        record.write(lambda reads: _go_on(reads, told, now_ms)).result()
        return record.checkpoint().result()
    finally:
        record.close()


def _ground(url: str, folder: Path, outside: Outside) -> _Ground:
    opened = Record.open(url, folder)
    try:
        condition = opened.condition()
        with opened.reads() as reads:
            people, newest = reads.registers().people, reads.newest_checkpoint()
    finally:
        opened.close()
    # What PostgreSQL's own means restored bears no mark: whoever restored it says so by asking.
    if not condition.copy and file_of(url):
        raise NotContinued("this record is no restored copy, so there is nothing to tell it")
    if outside.told_by not in people:
        nobody = "it was made before the record knew anybody: begin a new one with `strawline load`"
        known = f"known are {', '.join(sorted(people))}" if people else nobody
        raise NotThere(f"{outside.told_by!r} is nobody this copy knows; {known}")
    checkpoints = _opened(folder, outside.notes)
    within = [
        note for note, known in zip(outside.notes, checkpoints, strict=True) if known.size <= condition.lines
    ]
    if odd := check_record(url, folder, within).odd:
        raise NotContinued(f"the copy does not hold: {odd[0]}", "take another backup, and look after this one")
    furthest = max((known.size for known in checkpoints), default=0)
    return _Ground(condition.lines, max(0, furthest - condition.lines), newest.checkpoint.origin if newest else None)


def _opened(folder: Path, notes: Sequence[bytes]) -> list[Checkpoint]:
    try:
        return [open_checkpoint(note, known_keys(folder)) for note in notes]
    except NoteRefused as slip:
        raise NotContinued(f"a checkpoint from outside: {slip}; is it of this record?") from slip


def _key_is_away(folder: Path, signed_as: str | None) -> bool:
    return signed_as is not None and read_signer(folder) is None


def _why_another_name(ground: _Ground) -> str:
    if ground.lost:
        return (
            f"a checkpoint outside covers {ground.lost} lines more than the {ground.lines} of this copy: restore a "
            "newer backup; if there is none, those lines are lost, and with --new-name the record goes on under "
            "another name, so that no name ever signs two histories"
        )
    return (
        f"the key of {ground.signed_as} is not in the folder: put record.key back from where it is kept; if it is "
        "lost, the record goes on under another name with --new-name"
    )


def _take_another_name(folder: Path, former: str | None) -> None:
    signer = read_signer(folder)
    # Tried again after it was interrupted, it already has a key that never signed anything.
    if former is not None and (signer is None or signer.key.name == former):
        retire_signer(folder)


def _told(folder: Path, outside: Outside, ground: _Ground, former: str | None) -> dict[str, Any]:
    told: dict[str, Any] = {
        "kind": "continuation",
        "id": f"continued at {ground.lines}",
        "copied": made_from(folder),
        "lines": ground.lines,
        "known_outside": [note.decode() for note in outside.notes],
        "statement": _statement(outside, ground),
        "told_by": outside.told_by,
    }
    optional = {"lines_lost": ground.lost or None, "former_name": former}
    return told | {name: value for name, value in optional.items() if value}


def _statement(outside: Outside, ground: _Ground) -> str:
    if outside.none_known:
        return "no checkpoint is known outside"
    if ground.lost:
        return f"{ground.lost} lines known outside are not in this copy and are lost"
    return "every line that a checkpoint shown covers is in this copy"


def _go_on(_: Reads, told: dict[str, Any], now_ms: int) -> Written[str]:
    line = told_line(told, now_ms)
    return Written(lambda _: show_moment(now_ms), (line,), (take_mark_off,))
