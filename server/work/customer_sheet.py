"""One customer for the owner: the details, the frames, and what keeps the details from being removed."""

import re
from typing import NamedTuple

from server.facts.claim import Claim
from server.facts.customers import DetailsRemoved, NamelessCustomer
from server.facts.frame_papers import frames_of_customer
from server.facts.orders import Customer
from server.facts.registers import Registers
from server.work.legal_hold import frames_on_hold
from server.work.refusal import NotThere

_DIGITS = re.compile(r"(\d+)")


class CustomerSheet(NamedTuple):
    """A customer, the frames packed, shipped or owned, what holds the details, and the line that removed them."""

    customer: Customer
    frames: tuple[str, ...]
    held_by: tuple[str, ...]
    removal: DetailsRemoved | None

    @property
    def stands(self) -> bool:
        """Say whether there are details to remove."""
        return not isinstance(self.customer, NamelessCustomer)


def customer_sheet(registers: Registers, number: str) -> CustomerSheet:
    """Give one customer; raises `NotThere` for a number the register has not got."""
    customer = registers.customers.get(number)
    if customer is None:
        raise NotThere(f"{number!r} is no customer's number the record knows; they are listed under customers")
    frames = frames_of_customer(registers, number)
    held_by = (
        *_told_whole(registers, number),
        *_holds(registers, frames),
        *_claims(registers, number, frames),
        *_containments(registers, frames),
    )
    return CustomerSheet(customer, frames, held_by, registers.customer_removals.get(number))


def customer_sheets(registers: Registers) -> tuple[CustomerSheet, ...]:
    """Give every customer, by number: C-9 comes before C-10."""
    return tuple(customer_sheet(registers, number) for number in sorted(registers.customers, key=_as_counted))


def _as_counted(number: str) -> list[str | int]:
    return [int(part) if part.isdecimal() else part for part in _DIGITS.split(number)]


def _told_whole(registers: Registers, number: str) -> list[str]:
    at = registers.positions.get(f"customer:{number}")
    said = (
        f"{number} was told before details stood apart: the name is part of the sealed line at position {at} and "
        "cannot be taken out of it, since the whole record is proved by that line's bytes"
    )
    return [said] if at else []


def _holds(registers: Registers, frames: tuple[str, ...]) -> list[str]:
    holds = frames_on_hold(registers)
    return [
        f"{each} is under legal hold {holds[each].id}: {holds[each].reason}. An owner lifts it first"
        for each in frames
        if each in holds
    ]


def _claims(registers: Registers, number: str, frames: tuple[str, ...]) -> list[str]:
    """A claim they reported, about a frame of theirs or told to them is open until it is decided to be closed."""
    told = {each.claim for each in registers.claim_steps.values() if each.to == number or each.serial in frames}
    mine = (
        each
        for each in registers.claims.values()
        if each.reported_by == number or each.serial in frames or each.id in told
    )
    return [
        f"claim {each.id} about {each.serial} is open{_last_said(last)}; decide 'closed' in it first"
        for each in mine
        if (last := _last_decided(registers, each)) != "closed"
    ]


def _containments(registers: Registers, frames: tuple[str, ...]) -> list[str]:
    """Whoever is to be told of something about their frame has to be found until that is done."""
    done = {(each.containment, each.frame) for each in registers.containment_steps.values() if each.act == "done"}
    return [
        f"containment {each.id} is not done about {frame}: {each.title}; write there what was done first"
        for each in registers.containments.values()
        for frame in each.frames
        if frame in frames and (each.id, frame) not in done
    ]


def _last_decided(registers: Registers, claim: Claim) -> str | None:
    steps = (each for each in registers.claim_steps.values() if each.claim == claim.id and each.step == "decision")
    last = max(steps, key=lambda each: each.at, default=None)
    return last.settled if last else None


def _last_said(last: str | None) -> str:
    return f", last decided: {last}" if last else ""
