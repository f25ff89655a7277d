"""Counts claimed joints by the lot, sleeve, heat or welder they used, against all others in the field, with q."""

from typing import NamedTuple

from server.facts.claim import Claim
from server.occasions.tables import Tables
from server.statistics.screen import Screened, screen
from server.work.what_things import Kind, reader

COUNTED: tuple[Kind, ...] = ("fill lot", "cylinder", "filler lot", "sleeve", "tube heat", "welder", "bench", "revision")


class ByLot(NamedTuple):
    """The claims counted by one kind: a row to each thing of it, worst q first, and the claims left out with why."""

    kind: Kind
    rows: tuple[Screened, ...]
    claims: int
    joints: int
    left_out: tuple[tuple[str, str], ...]


def claims_by_lot(tables: Tables, kind: Kind) -> ByLot:
    """Tally every joint that left the house by the things of one kind; a claim counts for the joint it names."""
    claimed, left_out = _claimed(tables)
    read = reader(tables, kind)
    used: dict[str, set[str]] = {}
    for use in tables.uses.all:
        if use.frame in tables.shipped and not tables.uses.made_again(use):
            for name in read(use):
                used.setdefault(name, set()).add(f"{use.frame}/{use.joint}")
    every = set().union(*used.values())
    tallies = {name: (len(joints & claimed), len(joints)) for name, joints in used.items()}
    rows = screen(tallies) if len(tallies) > 1 else ()
    left_out += [(each, "no pass of it stands in the record with this") for each in sorted(claimed - every)]
    return ByLot(kind, rows, len(claimed & every), len(every), tuple(left_out))


def _claimed(tables: Tables) -> tuple[set[str], list[tuple[str, str]]]:
    found: set[str] = set()
    left_out = []
    for claim in tables.registers.claims.values():
        if claim.joint:
            found.add(f"{claim.serial}/{claim.joint}")
        else:
            left_out.append((_named(claim), "it names no joint"))
    return found, left_out


def _named(claim: Claim) -> str:
    return f"{claim.id}, {claim.serial}"
