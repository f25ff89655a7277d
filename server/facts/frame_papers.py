"""The papers of one frame, and the last decision on a finding, found without going through those of all others."""

from collections.abc import Callable, Collection, Iterable, Mapping
from typing import TypeVar

from server.facts.claim import Claim
from server.facts.deciding import Concession, Decision, Nonconformity, Permission
from server.facts.orders import Ownership, Packet, Shipment
from server.facts.registers import Registers

Paper = TypeVar("Paper")


def permissions_of(registers: Registers, frame: str) -> tuple[Permission, ...]:
    """Give what was permitted of a frame, in the order told."""
    return _grouped(registers, "permissions", registers.permissions, lambda each: [each.frame]).get(frame, ())


def shipments_of(registers: Registers, frame: str) -> tuple[Shipment, ...]:
    """Give every time a frame was sent, in the order told."""
    return _grouped(registers, "shipments", registers.shipments, lambda each: [each.frame]).get(frame, ())


def ownerships_of(registers: Registers, frame: str) -> tuple[Ownership, ...]:
    """Give who was told to own a frame, in the order told."""
    return _grouped(registers, "ownerships", registers.ownerships, lambda each: [each.frame]).get(frame, ())


def concessions_of(registers: Registers, frame: str) -> tuple[Concession, ...]:
    """Give the concessions that name a frame."""
    return _grouped(registers, "concessions", registers.concessions, lambda each: each.frames).get(frame, ())


def claims_of(registers: Registers, frame: str) -> tuple[Claim, ...]:
    """Give the claims on a frame."""
    return _grouped(registers, "claims", registers.claims, lambda each: [each.serial]).get(frame, ())


def nonconformities_of(registers: Registers, frame: str) -> tuple[Nonconformity, ...]:
    """Give the nonconformities that name a joint of a frame."""

    def frames(each: Nonconformity) -> Iterable[str]:
        return (subject.partition("/")[0] for subject in (*each.findings, *each.held) if "/" in subject)

    return _grouped(registers, "nonconformities", registers.nonconformities, frames).get(frame, ())


def decisions_on(registers: Registers, frame: str, keys: Collection[str]) -> tuple[Decision, ...]:
    """Give the decisions that name a frame, one of its joints, or a finding under one of these keys."""

    def frames(each: Decision) -> Iterable[str]:
        return (each.frame or "", *(key.partition("/")[0] for key in each.findings if "/" in key))

    named = _grouped(registers, "decisions", registers.decisions, frames).get(frame, ())
    by_key = _grouped(registers, "decisions by key", registers.decisions, lambda each: each.findings)
    found = {each.id for each in (*named, *(each for key in keys for each in by_key.get(key, ())))}
    return tuple(sorted((registers.decisions[each] for each in found), key=lambda each: _order(registers)[each.id]))


def frames_of_customer(registers: Registers, customer: str) -> tuple[str, ...]:
    """Give the frames that were packed for a customer, sent to them or told to be theirs, by serial."""

    def read() -> Mapping[str, tuple[str, ...]]:
        told = (registers.packets, registers.shipments, registers.ownerships)
        named = sorted({(each.frame, each.customer) for papers in told for each in papers.values() if each.customer})
        found = _gathered(named, lambda each: [each[1]])
        return {name: tuple(frame for frame, _ in of_one) for name, of_one in found.items()}

    return _looked_up(registers, "frames by customer", read).get(customer, ())


def last_decided(registers: Registers) -> Mapping[str, Decision]:
    """Give the last decision told on each finding, by the finding's key."""

    def read() -> Mapping[str, Decision]:
        return {key: each for each in registers.decisions.values() for key in each.findings}

    return _looked_up(registers, "last decided", read)


def packets_of_design(registers: Registers, design: str) -> tuple[Packet, ...]:
    """Give the packets of one design, the earliest issued first."""

    def read() -> Mapping[str, tuple[Packet, ...]]:
        in_order = sorted(registers.packets.values(), key=lambda each: (each.issued, each.frame))
        return _gathered(in_order, lambda each: [each.design])

    return _looked_up(registers, "packets by design", read).get(design, ())


def shipped_frames(registers: Registers) -> frozenset[str]:
    """Give every frame that was ever sent."""
    return _looked_up(registers, "shipped", lambda: frozenset(each.frame for each in registers.shipments.values()))


def _order(registers: Registers) -> Mapping[str, int]:
    return _looked_up(registers, "order", lambda: {each: at for at, each in enumerate(registers.decisions)})


def _grouped(
    registers: Registers, name: str, papers: Mapping[str, Paper], frames: Callable[[Paper], Iterable[str]]
) -> Mapping[str, tuple[Paper, ...]]:
    return _looked_up(registers, name, lambda: _gathered(papers.values(), frames))


def _gathered(
    papers: Iterable[Paper], names: Callable[[Paper], Iterable[str]]
) -> Mapping[str, tuple[Paper, ...]]:
    found: dict[str, list[Paper]] = {}
    for each in papers:
        for name in dict.fromkeys(names(each)):
            found.setdefault(name, []).append(each)
    return {name: tuple(of_one) for name, of_one in found.items()}


Answer = TypeVar("Answer")


def _looked_up(registers: Registers, name: str, read: Callable[[], Answer]) -> Answer:
    if name not in registers.looked_up:
        registers.looked_up[name] = read()
    found: Answer = registers.looked_up[name]
    return found
