"""Removes a customer's details for good, signed by an owner; the number and everything welded stay as they are."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from server.evidence.canonical import canonical_line
from server.facts.moment import show_moment
from server.facts.orders import Customer
from server.record.book_of_lines import Record
from server.record.details_guards import REMOVAL, removal_id
from server.record.keeping_details import empty_details
from server.record.reads import Reads
from server.record.written import Written
from server.work.customer_sheet import CustomerSheet, customer_sheet
from server.work.refusal import Refusal
from server.work.signature import Signing, signature
from server.work.telling import told_line
from server.work.told_once import ToldBefore, told_before

_SHORTEST = 3
_WORD = re.compile(r"\w+")


class RemovalRefused(Refusal):
    """Details that may not be removed as it was asked; each problem says what holds them and what to do."""


@dataclass(frozen=True, slots=True)
class RemovalAsked:
    """Whose details are to be removed, why, and who signs."""

    customer: str
    reason: str
    signings: tuple[Signing, ...]


def remove_details(record: Record, asked: RemovalAsked, now_ms: int) -> str:
    """Remove them, empty what the database keeps of them beside, and give the line's id; raises `RemovalRefused`."""
    with record.reads(patient=True) as reads:
        sheet = customer_sheet(reads.registers(), asked.customer)
        before = _removed_before(asked, sheet, now_ms)
        if before is None:
            _refuse(asked, sheet)
        typed_in = [] if before else reads.lines_holding(_as_written(sheet.customer))
    number = before or record.write(lambda reads: _removed(reads, asked, typed_in, now_ms)).result()
    record.forget()
    with record.reads() as reads:
        # Whoever asks for an earlier state from now on is answered without the details, too.
        reads.registers()
    return number


def _removed(reads: Reads, asked: RemovalAsked, typed_in: Sequence[str], now_ms: int) -> Written[str]:
    sheet = customer_sheet(reads.registers(), asked.customer)
    # Two sent at once both found the details there before their turns.
    if before := _removed_before(asked, sheet, now_ms):
        return Written(answer=lambda _: before)
    _refuse(asked, sheet)
    position = reads.last_position() + 1
    paper = _paper(asked, typed_in, position, now_ms)
    return Written(
        answer=lambda _: str(paper["id"]),
        lines=(told_line(paper, now_ms),),
        changes=(empty_details(asked.customer, position, now_ms),),
    )


def _paper(asked: RemovalAsked, typed_in: Sequence[str], position: int, now_ms: int) -> dict[str, Any]:
    paper: dict[str, Any] = {
        "kind": REMOVAL,
        "id": removal_id(asked.customer, position),
        "customer": asked.customer,
        "at": show_moment(now_ms),
        "reason": asked.reason.strip(),
        "also_typed_in": list(typed_in),
    }
    shown = sha256(canonical_line(paper)).hexdigest()
    return paper | {"signatures": [signature(each, shown, now_ms) for each in asked.signings]}


def _removed_before(asked: RemovalAsked, sheet: CustomerSheet, now_ms: int) -> ToldBefore | None:
    known = (sheet.removal,) if sheet.removal else ()
    return told_before(_paper(asked, (), 0, now_ms), known, but=("at", "also_typed_in"))


def _refuse(asked: RemovalAsked, sheet: CustomerSheet) -> None:
    problems = list(sheet.held_by)
    if not sheet.stands:
        problems.append(f"{asked.customer}: {sheet.customer.name}; there is nothing to remove")
    if len(asked.reason.strip()) < _SHORTEST:
        problems.append("reason: too short; write who asked for it and why, by number and without the name")
    elif named := _named_in(asked.reason, sheet.customer):
        problems.append(f"reason: {named!r} is part of what is to be removed, and a reason is sealed for ever")
    if "owner" not in {each.role for each in asked.signings}:
        problems.append("signature: a customer's details are removed by an owner")
    if problems:
        raise RemovalRefused(*problems)


def _named_in(reason: str, customer: Customer) -> str | None:
    """Give a word of the name or the address that stands in a reason; small words and numbers are anybody's."""
    told = _WORD.findall(f"{customer.name} {customer.address or ''}")
    own = {each.casefold() for each in told if len(each) >= _SHORTEST and each[0].isupper()}
    return next((each for each in _WORD.findall(reason) if each.casefold() in own), None)


def _as_written(customer: Customer) -> list[bytes]:
    """Give the name and the address as the bytes of a line hold them."""
    told = (customer.name, customer.address)
    return [canonical_line(each)[1:-1] for each in told if each and len(each) >= _SHORTEST]
