"""The sample audit: drawn by a lot nobody can choose, the same whenever it is drawn again, told by signed looks."""

from collections import Counter
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

from server.occasions.days import Days
from server.record.book_of_lines import Record, now_ms
from server.work.audit_state import AuditedWeek, audited, weeks_to_draw
from server.work.audit_week import week_named, week_of
from server.work.draw_sample import NotDrawn, by_lot, draw_sample, drawn_again, seal_after
from server.work.judge_new import judge_new
from server.work.refusal import NotThere
from server.work.tell_second_look import LookRefused, LookTold, tell_second_look
from tests.story.log import Tablet
from tests.work.last_weeks import OVER, EarlierTablet, weld_clean
from tests.work.small_shop import LEAD, a_pass, open_shop, send, tell

FIGURE = {"kind": "acceptance", "id": "audit", "name": "sample_audit", "unit": "joints", "value": "2", "source": "lead"}


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    tell(made, **FIGURE, valid_from="2020-01-01")
    weld_clean(made)
    yield made
    made.close()


def days(record: Record) -> Days:
    with record.reads() as reads:
        known = reads.registers().shop
    return Days(known.zone if known else "UTC")


def week(record: Record) -> str:
    return week_of(int(OVER.timestamp() * 1000), days(record))


def draw(record: Record, name: str = "") -> str:
    seal_after(record, name or week(record))
    judge_new(record)
    return record.write(lambda reads: draw_sample(reads, name or week(record), "LEA", now_ms())).result()


def stands(record: Record) -> AuditedWeek:
    with record.reads() as reads:
        return audited(reads.registers())[0]


def look(
    record: Record, subject: str, outcome: Any = "agrees", words: str = "seen: silver", signings: Any = (LEAD,)
) -> str:
    told = LookTold(stands(record).draw.id, subject, outcome, words, signings)
    return record.write(lambda reads: tell_second_look(reads, told, now_ms())).result()


def test_only_joints_without_a_finding_are_drawn(shop: Record):
    """Of three joints welded one was flagged; the two others are drawn, with the seed and the list they came from."""
    number = draw(shop)
    drawn = stands(shop).draw
    assert drawn.id == number == f"SD-{week(shop)}"
    assert sorted(drawn.drawn) == ["SW-1/B#1", "SW-1/C#1"]
    assert (drawn.welded, drawn.without_finding) == (3, 2)
    assert drawn.subjects_sha256 == sha256(b"SW-1/B#1\nSW-1/C#1").hexdigest()
    with shop.reads() as reads:
        sealed = reads.first_checkpoint(week_named(drawn.week, days(shop)).until_ms, 1)
    assert sealed is not None
    assert sealed.checkpoint.root.hex() == drawn.checkpoint_root


def test_a_draw_comes_out_the_same_whatever_is_found_later(shop: Record):
    """After a later finding on a drawn joint the record still gives the same list and the same lot."""
    draw(shop)
    send(shop, EarlierTablet("PAD").on_joint("9:00", "look", "B", side="outside", grade=5))
    with shop.reads() as reads:
        assert any(each.verdict.subject.startswith("SW-1/B") for each in reads.findings())
        assert drawn_again(reads, stands(shop).draw)


def test_a_draw_that_was_chosen_shows(shop: Record):
    """A draw with another joint or another seed than the lot gives does not come out the same."""
    draw(shop)
    drawn = stands(shop).draw
    with shop.reads() as reads:
        assert not drawn_again(reads, drawn.model_copy(update={"drawn": ("SW-1/A#1", "SW-1/B#1")}))
        assert not drawn_again(reads, drawn.model_copy(update={"checkpoint_root": "0" * 64}))


def test_the_lot_is_fair():
    """Over many seeds each of ten joints is drawn about as often: within four spreads of the mean."""
    subjects = [f"F/{each}#1" for each in range(10)]
    counted = Counter(each for seed in range(2000) for each in by_lot(subjects, f"{seed:064x}", "2025-W12", 3))
    spread = (2000 * 0.3 * 0.7) ** 0.5
    assert set(counted) == set(subjects)
    assert all(abs(count - 600) < 4 * spread for count in counted.values())


def test_the_order_of_the_list_does_not_matter_and_the_week_does():
    """The same joints in another order give the same lot; another week gives another."""
    subjects = [f"F/{each}#1" for each in range(40)]
    root = "ab" * 32
    assert by_lot(subjects, root, "2025-W12", 5) == by_lot(reversed(subjects), root, "2025-W12", 5)
    assert by_lot(subjects, root, "2025-W12", 5) != by_lot(subjects, root, "2025-W13", 5)


def test_a_week_is_drawn_once(shop: Record):
    """The second draw of a week is refused and names who drew it."""
    draw(shop)
    with pytest.raises(NotDrawn, match="LEA drew"):
        draw(shop)


def test_a_week_that_is_not_over_or_empty_is_not_drawn(shop: Record):
    """This week waits for Monday; a week without welding has nothing to draw; what is no week is named."""
    with pytest.raises(NotDrawn, match="not over"):
        draw(shop, week_of(now_ms(), days(shop)))
    with pytest.raises(NotDrawn, match="nothing to draw from"):
        draw(shop, "2021-W03")
    with pytest.raises(NotThere, match="2025-W12"):
        draw(shop, "last week")


def test_without_its_figure_nothing_is_drawn(tmp_path: Path):
    """A shop whose acceptance file names no number is told to write one."""
    made = open_shop(tmp_path)
    weld_clean(made)
    with pytest.raises(NotDrawn, match="sample_audit"):
        draw(made)
    made.close()


def test_nothing_is_drawn_while_something_is_not_judged(shop: Record):
    """What came in and is not judged could flag a joint; the draw waits for it."""
    draw_week = week(shop)
    seal_after(shop, draw_week)
    judge_new(shop)
    tell(shop, kind="customer", id="C-9", name="Somebody", address="")
    with pytest.raises(NotDrawn, match="still being judged"):
        shop.write(lambda reads: draw_sample(reads, draw_week, "LEA", now_ms())).result()


def test_a_week_on_offer_is_over_welded_in_and_not_drawn(shop: Record):
    """The fortnight-old week is on offer until it is drawn; this week's welding is not."""
    send(shop, a_pass(Tablet("PAD"), "1:00"))
    with shop.reads() as reads:
        assert weeks_to_draw(reads, reads.registers(), now_ms()) == (week(shop),)
    draw(shop)
    with shop.reads() as reads:
        assert weeks_to_draw(reads, reads.registers(), now_ms()) == ()


def test_looks_add_up_to_a_bound(shop: Record):
    """Two looks that agree bound what slips through at 78 %; one that could not be made counts neither way."""
    draw(shop)
    assert stands(shop).tally.at_most is None
    look(shop, "SW-1/B#1")
    look(shop, "SW-1/C#1")
    found = stands(shop)
    assert (found.waiting, found.tally.looked, found.tally.found) == ((), 2, 0)
    assert found.tally.at_most == pytest.approx(1 - 0.05**0.5)
    look(shop, "SW-1/C#1", "not reached", "shipped meanwhile")
    assert stands(shop).tally.looked == 1


def test_what_a_look_finds_is_held(shop: Record):
    """Something found opens a nonconformity that holds the joint, signed by the same hand; nothing found opens none."""
    draw(shop)
    look(shop, "SW-1/B#1")
    look(shop, "SW-1/C#1", "found", "a pore at 3 o'clock")
    joints = {each.subject: each.look for each in stands(shop).joints}
    with shop.reads() as reads:
        papers = reads.registers().nonconformities
    assert joints["SW-1/B#1"] is not None
    assert joints["SW-1/B#1"].nonconformity is None
    held = joints["SW-1/C#1"]
    assert held is not None
    assert papers[str(held.nonconformity)].held == ("SW-1/C#1",)
    assert len(papers) == 1


def test_a_later_look_follows_and_edits_nothing(shop: Record):
    """The second telling stands, the first stays readable behind it."""
    draw(shop)
    look(shop, "SW-1/B#1", words="by mirror")
    look(shop, "SW-1/B#1", "found", "by borescope: grey")
    joint = next(each for each in stands(shop).joints if each.subject == "SW-1/B#1")
    assert joint.look is not None
    assert joint.look.outcome == "found"
    assert [each.words for each in joint.before] == ["by mirror"]


def test_a_look_that_may_not_stand_is_refused(shop: Record):
    """No words, the welder's own joint, a role that does not decide, a joint not drawn: each is named."""
    draw(shop)
    with pytest.raises(LookRefused, match="words"):
        look(shop, "SW-1/B#1", words=" ")
    with pytest.raises(LookRefused, match="WEL welded this joint"):
        look(shop, "SW-1/B#1", signings=(LEAD.__class__("WEL", "", "desk", "quality lead", "looked"),))
    with pytest.raises(LookRefused, match="signed by a quality lead or an owner"):
        look(shop, "SW-1/B#1", signings=(LEAD.__class__("LEA", "", "desk", "welder", "looked"),))
    with pytest.raises(NotThere, match="was not drawn"):
        look(shop, "SW-1/A#1")


def test_a_look_stands_in_the_chain_of_its_frame(shop: Record):
    """Leaving a look out would leave a gap in the frame's own chain."""
    draw(shop)
    number = look(shop, "SW-1/B#1")
    with shop.reads() as reads:
        line = reads.line(number)
        assert line is not None
        subjects = reads.subjects_of([line.position])[line.position]
    assert ("frame", "SW-1") in [tuple(each) for each in subjects]


def test_a_seal_and_a_draw_make_nobody_judge_again(shop: Record):
    """After a checkpoint, a draw and a look nothing that was judged is judged anew."""
    from server.work.touched import touched_by

    judge_new(shop)
    with shop.reads() as reads:
        before = reads.last_position()
    draw(shop)
    look(shop, "SW-1/B#1")
    with shop.reads() as reads:
        touched = touched_by(reads, reads.lines_between(before + 1, reads.last_position()))
    assert touched == (frozenset(), False)
