"""Releases a written procedure's next revision into the record: whole, signed over its digest, never edited after."""

import hashlib
from dataclasses import dataclass
from datetime import date
from pathlib import PurePosixPath
from typing import Any

from server.evidence.canonical import parse_line
from server.facts.change_table import ChangeTable
from server.facts.procedure import Procedure
from server.facts.published_changes import published_changes
from server.facts.register_line import ReleasedText
from server.facts.registers import Registers
from server.occasions.days import Days
from server.procedures.new_record import record_missing, records_asked
from server.procedures.next_revision import not_a_next_one
from server.procedures.reading import read_procedure
from server.record.reads import Reads
from server.record.written import Written
from server.sheets.complaint import SheetRefused
from server.work.refusal import NotThere, Refusal
from server.work.signature import Signing, signature
from server.work.telling import told_line
from server.work.told_once import ToldBefore


class RevisionRefused(Refusal):
    """A text that may not be released as the next revision; each problem says where and what to write."""


@dataclass(frozen=True, slots=True)
class RevisionAsked:
    """The text to release, the revision it was begun from, and who signs."""

    name: str
    begun_from: str
    text: str
    signing: Signing


def released_text(reads: Reads, procedure: Procedure) -> ReleasedText:
    """Give the text a revision was released as; raises `NotThere`."""
    position = reads.registers().positions.get(f"procedure:{procedure.called}")
    lines = reads.lines_between(position, position) if position else []
    if not lines:
        raise NotThere(f"{procedure.called}: its text is not in the record; the list shows what there is.")
    return ReleasedText.model_validate(parse_line(lines[0].body))


def change_tables(registers: Registers) -> dict[str, ChangeTable]:
    """Give every table of essential variables by name; the shop's own stands above one brought along."""
    return {**published_changes(), **registers.change_tables}


def read_next(reads: Reads, name: str, begun_from: str, text: str, today: date) -> Procedure:
    """Read a text as the next revision after one; raises `RevisionRefused` with everything wrong, `NotThere`."""
    procedures = reads.registers().procedures
    old = procedures.get((name, begun_from))
    if old is None:
        raise NotThere(f"There is no procedure {name!r} at revision {begun_from!r}; the list shows what there is.")
    try:
        new = read_procedure(text, "the text")
    except SheetRefused as refused:
        raise RevisionRefused(*map(str, refused.complaints)) from None
    if wrong := not_a_next_one(new, old, procedures.values(), today):
        raise RevisionRefused(*wrong)
    return new


def release_revision(reads: Reads, asked: RevisionAsked, now_ms: int) -> Written[str]:
    """Append the text, signed, and answer the revision's letter; raises `RevisionRefused` or `NotThere`."""
    registers = reads.registers()
    if again := _released_before(reads, asked, registers):
        return Written(answer=lambda _: again)
    today = date.fromordinal(Days(registers.zone).day_of(now_ms))
    new = read_next(reads, asked.name, asked.begun_from, asked.text, today)
    old = registers.procedures[asked.name, asked.begun_from]
    if missing := record_missing(records_asked(old, new, change_tables(registers))):
        raise RevisionRefused(*missing)
    before = released_text(reads, old)
    sha256 = hashlib.sha256(asked.text.encode()).hexdigest()
    told: dict[str, Any] = {
        "kind": "procedure",
        "id": new.called,
        "file": str(PurePosixPath(before.file).with_name(f"rev_{new.revision.lower()}.toml")),
        "sha256": sha256,
        "text": asked.text,
        "released_by": asked.signing.person,
        "signature": signature(asked.signing, sha256, now_ms),
    }
    return Written(answer=lambda _: new.revision, lines=(told_line(told, now_ms),))


def _released_before(reads: Reads, asked: RevisionAsked, registers: Registers) -> ToldBefore | None:
    """Give the letter of the revision that the same person released with this very text."""
    follows = (
        each for each in registers.procedures.values() if (each.name, each.replaces) == (asked.name, asked.begun_from)
    )
    for each in follows:
        told = released_text(reads, each)
        if (told.text, told.released_by) == (asked.text, asked.signing.person):
            return ToldBefore(each.revision)
    return None
