"""What else used a thing is told joint by joint, with where it is and who has it, and nothing that did not use it."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.record.book_of_lines import Record
from server.work.judge_new import judge_new
from server.work.refusal import NotThere
from server.work.what_else import KINDS, Kind, WhatElse, what_else
from tests.story.log import LINES, Tablet
from tests.work.small_shop import OWNER, accept_all, open_shop, pass_gate, send, weld_it_all

PURGE = LINES["purge_line"]


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    send(made, *weld_it_all(Tablet("SLATE")))
    yield made
    made.close()


def ask(shop: Record, kind: Kind, thing: str, **cut: int) -> WhatElse:
    with shop.reads() as reads:
        return what_else(reads, kind, thing, **cut)


def test_a_sleeve_is_only_under_its_fills(shop: Record):
    """A sleeve named on the fills has the three joints with one pass each; the line they share has two each."""
    assert [len(each.passes) for each in ask(shop, "sleeve", "S-1").shared] == [1, 1, 1]
    assert [len(each.passes) for each in ask(shop, "line", PURGE).shared] == [2, 2, 2]


def test_a_cut_leaves_what_was_welded_within_it(shop: Record):
    """From the second joint's first pass on, the first joint is not in the answer."""
    whole = ask(shop, "line", PURGE).shared
    assert [each.subject for each in ask(shop, "line", PURGE, since_ms=whole[1].at_ms[0]).shared] == [
        each.subject for each in whole[1:]
    ]
    assert [each.subject for each in ask(shop, "line", PURGE, until_ms=whole[1].at_ms[0]).shared] == [whole[0].subject]


def test_where_it_is_follows_the_frame(shop: Record):
    """Covered or in work first; finished once inspected; shipped with the customer and the day once it has left."""
    assert {each.place for each in ask(shop, "line", PURGE).shared} <= {"in work", "covered"}
    accept_all(shop)
    pass_gate(shop, "final inspection", OWNER)
    judge_new(shop)
    assert {each.place for each in ask(shop, "line", PURGE).shared} == {"finished"}
    for gate in ("release", "ship"):
        pass_gate(shop, gate, OWNER)
        judge_new(shop)
    shipped = ask(shop, "line", PURGE).at("shipped")
    with shop.reads() as reads:
        customer = reads.registers().customers["CU-1"].name
    assert {(each.customer, each.shipped_ms is not None) for each in shipped} == {(customer, True)}
    assert len(shipped) == 3


@pytest.mark.parametrize("kind", KINDS)
def test_what_was_never_used_is_said(shop: Record, kind: Kind):
    """A thing under no pass is refused by name, with what is known of its kind."""
    with pytest.raises(NotThere, match=f"{kind}: 'NOTHING' stands under no pass"):
        ask(shop, kind, "NOTHING")


def test_the_revision_and_the_week_of_a_weld(shop: Record):
    """Passes are found by the revision in force on their day and by the week they were welded in."""
    assert len(ask(shop, "revision", "TUBE rev A").shared) == 3
    from tests.story.log import DAY

    year, week, _ = DAY.date().isocalendar()
    assert len(ask(shop, "week", f"{year}-W{week:02d}").shared) == 3
