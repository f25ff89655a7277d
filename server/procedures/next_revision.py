"""The text a next revision begins with, and what is wrong with one beside what its own sheet complains of."""

import re
from collections.abc import Iterable
from datetime import date, timedelta

from server.facts.procedure import Procedure
from server.procedures.compare import compare
from server.procedures.in_force import revisions

_REASON_LEAST = 8


def begun_from(text: str, old: Procedure, known: Iterable[Procedure], today: date) -> str:
    """Give the old text as a new revision: next letter, what it replaces, from tomorrow on, the reason still to say."""
    letter = next_letter(revisions(known, old.name)[-1].revision)
    starts = max(today, old.valid_from) + timedelta(days=1)
    for field, value in (
        ("reason", '""'),
        ("replaces", f'"{old.revision}"'),
        ("valid_from", starts.isoformat()),
        ("revision", f'"{letter}"'),
    ):
        text = _with_field(text, field, value)
    return text


def next_letter(revision: str) -> str:
    """Give the revision after one.

    >>> [next_letter(each) for each in ("B", "Z", "7", "C2")]
    ['C', 'AA', '8', 'C3']
    """
    if number := re.search(r"\d+$", revision):
        return revision[: number.start()] + str(int(number[0]) + 1)
    if re.fullmatch(r"[A-Y]", revision):
        return chr(ord(revision) + 1)
    return "AA" if revision == "Z" else f"{revision}2"


def not_a_next_one(new: Procedure, old: Procedure, known: Iterable[Procedure], today: date) -> list[str]:
    """Tell, field by field, why a revision may not follow another; an empty list says that it may."""
    letters = {each.revision for each in known if each.name == old.name}
    wrong = []
    if new.name != old.name:
        wrong.append(f"name: {new.name!r}; a revision keeps the name {old.name!r}")
    if new.revision in letters:
        wrong.append(f"revision: {new.revision!r} is released already and is never edited; take the next letter")
    if new.replaces != old.revision:
        wrong.append(f"replaces: {new.replaces!r}; this one was begun from {old.revision!r}, write that")
    if new.valid_from < today:
        welded = "what was welded is judged by what was in force then"
        wrong.append(f"valid_from: {new.valid_from} is past; {welded}. Write today, {today}, or later")
    if len((new.reason or "").strip()) < _REASON_LEAST:
        wrong.append("reason: write why it replaces the one before, in a sentence a stranger understands years later")
    if not wrong and not compare(old, new):
        wrong.append("text: nothing that is asked or allowed differs from the one before; there is nothing to release")
    return wrong


def _with_field(text: str, field: str, value: str) -> str:
    head, table, rest = text.partition("\n[")
    said = f"{field} = {value}"
    line = re.compile(rf"^{field}\s*=.*$", re.MULTILINE)
    if line.search(head):
        return line.sub(lambda _: said, head, count=1) + table + rest
    after_revision = re.compile(r"^(revision\s*=.*)$", re.MULTILINE)
    return after_revision.sub(lambda found: f"{found[1]}\n{said}", head, count=1) + table + rest
