"""What else used a thing is told joint by joint, with where it is and who has it, cut where a check failed."""

from typing import Any

import pytest

from server.facts.moment import show_moment
from server.facts.registers import Registers
from server.record.book_of_lines import Record, now_ms
from server.work.judge_new import judge_new
from server.work.refusal import NotThere
from server.work.what_else import WhatElse, Within, what_else
from server.work.what_things import KINDS, Kind, Thing
from tests.story.log import LINES, Tablet, clock_now
from tests.work.small_shop import OWNER, accept_all, pass_gate, send, tell

PURGE = LINES["purge_line"]


def ask(shop: Record, kind: Kind, thing: str, **cut: Any) -> WhatElse:
    with shop.reads() as reads:
        return what_else(reads, [Thing(kind, thing)], Within(**cut))


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
    shipped = [each for each in ask(shop, "line", PURGE).shared if each.place == "shipped"]
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


def test_two_things_at_once_are_what_both_were_used_by(shop: Record):
    """A line and a sleeve together leave the one pass of each joint that used both; what never met is refused."""
    with shop.reads() as reads:
        both = what_else(reads, [Thing("line", PURGE), Thing("sleeve", "S-1")])
        assert [len(each.passes) for each in both.shared] == [1, 1, 1]
        with pytest.raises(NotThere, match=r"no pass used line .* and welder NOBODY together"):
            what_else(reads, [Thing("line", PURGE), Thing("welder", "NOBODY")])


def test_the_larger_sets_say_what_they_take_more_and_by_which_fact_the_smaller_leaves_it_out(shop: Record):
    """Beside a line and a sleeve at once stand each alone; the set asked for comes first and none is smaller."""
    with shop.reads() as reads:
        sizes = what_else(reads, [Thing("line", PURGE), Thing("week", week_of_the_day())]).sizes
    assert sizes[0].words == f"line {PURGE} and week {week_of_the_day()}"
    assert all(each.joints >= sizes[0].joints and each.fact for each in sizes[1:])


def week_of_the_day() -> str:
    from tests.story.log import DAY

    year, week, _ = DAY.date().isocalendar()
    return f"{year}-W{week:02d}"


def test_a_cut_at_a_failed_check_begins_at_the_last_good_one(shop: Record):
    """After a failed bead the page offers the stretch since the last good one; a check that did not fail is refused."""
    tablet = Tablet("SLATE", "b2")
    send(shop, tablet.tell("1:20", "bead", line=PURGE, result="good", why="shift"))
    send(shop, tablet.tell("2:20", "bead", line=PURGE, result="failed", why="suspicion"))
    whole = ask(shop, "line", PURGE)
    (cut,) = whole.cuts()
    again = ask(shop, "line", PURGE, check=cut.failed.entry)
    assert again.cut == cut
    between = [at_ms for each in whole.shared for at_ms in each.at_ms if cut.good and cut.good.at_ms < at_ms]
    inside = [at_ms for at_ms in between if at_ms < cut.failed.at_ms]
    assert [at_ms for each in again.shared for at_ms in each.at_ms] == inside
    assert inside
    assert again.sizes[-1].more == 0
    with pytest.raises(NotThere, match="is no failed check"):
        ask(shop, "line", PURGE, check="nothing")


def test_a_fixture_is_found_by_the_window_it_stood_at_the_bench(shop: Record):
    """A pass at a bench while a fixture stood there used it; one before it came did not."""
    bench = next(iter(registers(shop).benches))
    whole = ask(shop, "bench", bench).shared
    second = show_moment(whole[1].at_ms[0])
    tell(shop, kind="window", id="FX at one", what="fixture at bench", subject="FX-9", bench=bench, since=second)
    assert [each.subject for each in ask(shop, "fixture", "FX-9").shared] == [each.subject for each in whole[1:]]


def test_a_frame_that_came_back_is_not_with_its_customer(shop: Record):
    """Shipped and returned, it is back in the house; shipped again, it is away."""
    ship(shop)
    send(shop, Tablet("SLATE", "b3").tell(clock_now(1), "stage", frame="SW-1", stage="returned"))
    assert {each.place for each in ask(shop, "line", PURGE).shared} == {"back in the house"}
    tell(shop, kind="shipment", id="S-again", frame="SW-1", customer="CU-1", at=show_moment(now_ms() + 300_000))
    assert {each.place for each in ask(shop, "line", PURGE).shared} == {"shipped"}


def registers(shop: Record) -> Registers:
    with shop.reads() as reads:
        return reads.registers()


def ship(shop: Record) -> None:
    accept_all(shop)
    for gate in ("final inspection", "release", "ship"):
        pass_gate(shop, gate, OWNER)
        judge_new(shop)
