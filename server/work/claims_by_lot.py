"""Counts claimed joints by the lot, sleeve, heat or welder they used, against all others in the field, with q."""

from collections import Counter
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from server.facts.claim import Claim
from server.facts.registers import Registers
from server.occasions.tables import Tables
from server.statistics.screen import Screened, screen
from server.work.frame_things import OfFrame
from server.work.thing_index import OUT_OF_THE_HOUSE, ThingIndex
from server.work.what_things import Kind, Thing


class ByLot(NamedTuple):
    """The claims counted by one kind: a row to each thing of it, worst q first, and the claims left out with why."""

    kind: Kind
    rows: tuple[Screened, ...]
    row_of: Mapping[str, Screened]
    claims: int
    joints: int
    left_out: tuple[tuple[str, str], ...]


def claims_by_lot(tables: Tables, index: ThingIndex, kind: Kind) -> ByLot:
    """Tally every joint that left the house by the things of one kind; a claim counts for the joint it names."""
    rests_on = index.seen.registers.claims, index.left.get(kind)
    return tables.made_of.kept(f"claims by {kind}", rests_on, lambda _: _counted(index, kind))


def _counted(index: ThingIndex, kind: Kind) -> ByLot:
    claimed, left_out = _claimed(index.seen.registers)
    with_it: Counter[str] = Counter()
    missing = []
    for frame, joint in claimed:
        of_frame = index.filed.frames.get(frame)
        things = list(_things_of(of_frame, joint, kind)) if of_frame else []
        with_it.update(things)
        if not things:
            missing.append(f"{frame}/{joint}")
    tallies = {thing: (with_it[thing], joints) for thing, joints in sorted(index.left.get(kind, {}).items())}
    rows = screen(tallies) if len(tallies) > 1 else ()
    joints = index.filed.standing_at(Thing(kind, ""), OUT_OF_THE_HOUSE)
    left_out += [(each, "no pass of it stands in the record with this") for each in sorted(missing)]
    row_of = {each.level: each for each in rows}
    return ByLot(kind, rows, row_of, len(claimed) - len(missing), joints, tuple(left_out))


def _things_of(of_frame: OfFrame, joint: str, kind: Kind) -> Iterator[str]:
    """The things of a kind that a joint of a frame used that left the house."""
    passes = 0
    for bits, name, place in of_frame.joints:
        if name == joint and place in OUT_OF_THE_HOUSE:
            passes |= bits
    if passes:
        yield from (it.name for it, bits in of_frame.used.items() if it.kind == kind and it.name and bits & passes)


def _claimed(registers: Registers) -> tuple[set[tuple[str, str]], list[tuple[str, str]]]:
    found: set[tuple[str, str]] = set()
    left_out = []
    for claim in registers.claims.values():
        if claim.joint:
            found.add((claim.serial, claim.joint))
        else:
            left_out.append((_named(claim), "it names no joint"))
    return found, left_out


def _named(claim: Claim) -> str:
    return f"{claim.id}, {claim.serial}"
