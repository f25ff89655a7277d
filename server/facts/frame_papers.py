"""The papers of one frame, and the last decision on a finding, found without going through those of all others."""

from collections.abc import Collection, Iterable, Mapping
from itertools import groupby
from operator import itemgetter

from server.facts.claim import Claim
from server.facts.deciding import Concession, Decision, Nonconformity, Permission
from server.facts.layered import layered
from server.facts.looked_up import carried_up, gathered, looked_up
from server.facts.orders import Ownership, Packet, Shipment
from server.facts.registers import Registers


def permissions_of(registers: Registers, frame: str) -> tuple[Permission, ...]:
    """Give what was permitted of a frame, in the order told."""
    return gathered(registers, "permissions", registers.permissions, lambda each: [each.frame]).get(frame, ())


def shipments_of(registers: Registers, frame: str) -> tuple[Shipment, ...]:
    """Give every time a frame was sent, in the order told."""
    return gathered(registers, "shipments", registers.shipments, lambda each: [each.frame]).get(frame, ())


def ownerships_of(registers: Registers, frame: str) -> tuple[Ownership, ...]:
    """Give who was told to own a frame, in the order told."""
    return gathered(registers, "ownerships", registers.ownerships, lambda each: [each.frame]).get(frame, ())


def concessions_of(registers: Registers, frame: str) -> tuple[Concession, ...]:
    """Give the concessions that name a frame."""
    return gathered(registers, "concessions", registers.concessions, lambda each: each.frames).get(frame, ())


def claims_of(registers: Registers, frame: str) -> tuple[Claim, ...]:
    """Give the claims on a frame."""
    return gathered(registers, "claims", registers.claims, lambda each: [each.serial]).get(frame, ())


def nonconformities_of(registers: Registers, frame: str) -> tuple[Nonconformity, ...]:
    """Give the nonconformities that name a joint of a frame."""

    def frames(each: Nonconformity) -> Iterable[str]:
        return (subject.partition("/")[0] for subject in (*each.findings, *each.held) if "/" in subject)

    return gathered(registers, "nonconformities", registers.nonconformities, frames).get(frame, ())


def decisions_on(registers: Registers, frame: str, keys: Collection[str]) -> tuple[Decision, ...]:
    """Give the decisions that name a frame, one of its joints, or a finding under one of these keys."""

    def frames(each: Decision) -> Iterable[str]:
        return (each.frame or "", *(key.partition("/")[0] for key in each.findings if "/" in key))

    named = gathered(registers, "decisions", registers.decisions, frames).get(frame, ())
    return _in_order(registers, {each.id for each in (*named, *decisions_naming(registers, keys))})


def decisions_naming(registers: Registers, keys: Iterable[str]) -> tuple[Decision, ...]:
    """Give the decisions on findings under these keys, in the order told."""
    by_key = decisions_by_key(registers)
    return _in_order(registers, {each.id for key in keys for each in by_key.get(key, ())})


def decisions_using(registers: Registers) -> Mapping[str, tuple[Decision, ...]]:
    """Give the decisions that use each concession, in the order told."""

    def concession(each: Decision) -> Iterable[str]:
        return [each.concession] if each.concession is not None else []

    return gathered(registers, "decisions by concession", registers.decisions, concession)


def _in_order(registers: Registers, found: Iterable[str]) -> tuple[Decision, ...]:
    order = told_order(registers)
    return tuple(registers.decisions[each] for each in sorted(found, key=order.__getitem__))


def frames_of_customer(registers: Registers, customer: str) -> tuple[str, ...]:
    """Give the frames that were packed for a customer, sent to them or told to be theirs, by serial."""

    told = (registers.packets, registers.shipments, registers.ownerships)

    def read() -> Mapping[str, tuple[str, ...]]:
        named = sorted({(each.customer, each.frame) for papers in told for each in papers.values() if each.customer})
        return {name: tuple(frame for _, frame in of_one) for name, of_one in groupby(named, itemgetter(0))}

    return looked_up(registers, "frames by customer", told, read).get(customer, ())


def last_decided(registers: Registers) -> Mapping[str, Decision]:
    """Give the last decision told on each finding, by the finding's key."""

    def read(known: Mapping[str, Decision], more: Iterable[Decision]) -> Mapping[str, Decision]:
        return layered(known, {key: each for each in more for key in each.findings})

    return carried_up(registers, "last decided", registers.decisions, read)


def decisions_by_key(registers: Registers) -> Mapping[str, tuple[Decision, ...]]:
    """Give the decisions on each finding in the order told, by the finding's key."""
    return gathered(registers, "decisions by key", registers.decisions, lambda each: each.findings)


def packets_of_design(registers: Registers, design: str) -> tuple[Packet, ...]:
    """Give the packets of one design, the earliest issued first."""

    papers = registers.packets

    def read() -> Mapping[str, tuple[Packet, ...]]:
        of_design = gathered(registers, "packets by design as told", papers, lambda each: [each.design])
        in_order = {name: sorted(found, key=_issued) for name, found in of_design.items()}
        return {name: tuple(found) for name, found in in_order.items()}

    return looked_up(registers, "packets by design", (papers,), read).get(design, ())


def shipped_frames(registers: Registers) -> frozenset[str]:
    """Give every frame that was ever sent."""
    papers = registers.shipments
    return looked_up(registers, "shipped", (papers,), lambda: frozenset(each.frame for each in papers.values()))


def read_ahead(registers: Registers) -> None:
    """File every paper by its frame, so that the first page of one does not wait for those of all."""
    for papers_of in (
        permissions_of, shipments_of, ownerships_of, concessions_of, claims_of, nonconformities_of, frames_of_customer
    ):  # fmt: skip
        papers_of(registers, "")
    decisions_on(registers, "", ())


def _issued(packet: Packet) -> tuple[int, str]:
    return packet.issued, packet.frame


def told_order(registers: Registers) -> Mapping[str, int]:
    """Give which decision was told first, second and so on."""

    def read(known: Mapping[str, int], more: Iterable[Decision]) -> Mapping[str, int]:
        return layered(known, {each.id: at for at, each in enumerate(more, len(known))})

    return carried_up(registers, "order", registers.decisions, read)
