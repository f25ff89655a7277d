"""Somebody stands in for an absent lead: they act and sign in that role, the record says for whom, and it ends."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from server.record.book_of_lines import Record
from server.work.acting import acting
from server.work.signature import Signing
from server.work.standing_in import StandInAsked, StandInRefused, as_standing_in, end_stand_in, let_stand_in
from tests.work.small_shop import open_shop

NOW = 1_950_000_000_000
DAY_MS = 86_400_000
LEAD = Signing("LEA", "", "desk", "quality lead", "stands in")


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    yield made
    made.close()


def let(record: Record, now_ms: int = NOW, **told: Any) -> str:
    usual: dict[str, Any] = {"person": "WEL", "until_ms": NOW + DAY_MS, "reason": "holiday", "signing": LEAD}
    asked = StandInAsked(**usual | told)
    return record.write(lambda reads: let_stand_in(reads, asked, now_ms)).result()


def roles(record: Record, person: str, at_ms: int) -> tuple[str, ...]:
    with record.reads() as reads:
        registers = reads.registers()
        return acting(registers, registers.people[person], at_ms).roles


def test_the_role_is_held_for_as_long_as_was_signed(shop: Record):
    """From the signature to the last moment told, and neither before nor after."""
    let(shop)
    held = ["quality lead" in roles(shop, "WEL", NOW + ms) for ms in (-1, 0, DAY_MS - 1, DAY_MS)]
    assert held == [False, True, True, False]


def test_what_they_sign_says_for_whom(shop: Record):
    """In the absent person's role the meaning names them; in a role of their own it does not."""
    let(shop)
    with shop.reads() as reads:
        known = reads.registers()
        for_her = as_standing_in(known, Signing("WEL", "", "desk", "quality lead", "decided: accept"), NOW)
        own = as_standing_in(known, Signing("WEL", "", "desk", "welder", "released"), NOW)
    assert (for_her.meaning, own.meaning) == ("decided: accept, standing in for LEA", "released")


def test_it_is_ended_by_a_later_line(shop: Record):
    """The absent person is back early: the role is gone from that moment, and both lines stand."""
    number = let(shop)
    shop.write(lambda reads: end_stand_in(reads, number, LEAD, NOW + 1000)).result()
    assert ["quality lead" in roles(shop, "WEL", NOW + ms) for ms in (999, 1000)] == [True, False]
    with shop.reads() as reads:
        assert [each.ends for each in reads.registers().stand_ins.values()] == [None, number]


def test_who_stands_in_cannot_end_or_pass_it_on(shop: Record):
    """A role that is not one's own is neither given on nor taken from whoever gave it."""
    number = let(shop)
    other = Signing("WEL", "", "desk", "quality lead", "stands in")
    with pytest.raises(StandInRefused, match="is ended by LEA"):
        shop.write(lambda reads: end_stand_in(reads, number, other, NOW + 1)).result()
    with pytest.raises(StandInRefused, match="is not the signer's own"):
        let(shop, person="OWN", signing=other)


@pytest.mark.parametrize(
    ("told", "said"),
    [
        ({"person": "NOB"}, "'NOB' does not work here"),
        ({"person": "LEA"}, "holds the role quality lead already"),
        ({"until_ms": NOW - 1}, "until: say the last day"),
        ({"until_ms": None}, "until: say the last day"),
        ({"reason": " "}, "reason: empty"),
        ({"signing": Signing("WEL", "", "desk", "welder", "x")}, "role: 'welder' is not"),
    ],
)
def test_what_is_wrong_is_named(shop: Record, told: dict[str, Any], said: str):
    """Each thing that is missing or may not be is named with what is expected."""
    with pytest.raises(StandInRefused, match=said):
        let(shop, **told)
