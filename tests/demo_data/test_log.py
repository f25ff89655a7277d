"""The log as a whole: nobody in two places, gas on where it is welded, everything the plan asks there."""

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterable
from itertools import pairwise

from demo_data.generator.days import MINUTE, clock_of, show, working
from demo_data.generator.story import Happening
from tests.demo_data.told import Told


def overlapping(passes: Iterable[Happening], by: str) -> list[tuple[Happening, Happening]]:
    spans: dict[str, list[Happening]] = defaultdict(list)
    for each in passes:
        spans[each.who if by == "who" else each.fields[by]].append(each)
    found = []
    for own in spans.values():
        own.sort(key=lambda h: h.moments["arc_started"])
        found += [(a, b) for a, b in pairwise(own) if b.moments["arc_started"] < a.at + 10_000]
    return found


def test_nobody_welds_two_runs_at_once(full: Told) -> None:
    """No welder, and no power source, has two arcs at the same time."""
    assert overlapping(full.by_kind["pass"], "who") == []
    assert overlapping(full.by_kind["pass"], "machine") == []


def test_two_arcs_at_once_would_be_seen(full: Told) -> None:
    """Control: one run moved onto the next is reported."""
    first, second = sorted(full.by_kind["pass"], key=lambda h: h.at)[:2]
    moved = Happening(second.at, "t", first.who, first.fields, second.at, moments=dict(second.moments))
    assert overlapping([moved, Happening(second.at, "t", first.who, {}, 0, moments=dict(second.moments))], "who")


def test_a_joint_is_welded_in_its_order(full: Told) -> None:
    """At every joint gap, tack, root, fill and wash follow one another, and are tapped in that order on one tablet."""
    rank = {"gap": 0, "tack": 1, "root": 2, "fill": 3, "repair": 3, "wash": 4}
    joints: dict[tuple[str, str, int], list[Happening]] = defaultdict(list)
    for kind in ("gap", "tack", "pass"):
        for h in full.by_kind[kind]:
            joints[h.fields["frame"], h.fields["joint"], h.fields.get("attempt", 1)].append(h)
    twice_tacked = ("MT-0223", "J06", 1)
    for key, own in joints.items():
        ranks = [rank[h.fields.get("run", h.fields["kind"])] for h in sorted(own, key=lambda h: h.at)]
        assert ranks == sorted(ranks) or key == twice_tacked, key
        if len({h.device for h in own}) == 1:
            in_order = sorted(own, key=lambda h: h.at)
            assert [h.id for h in sorted(own, key=lambda h: h.tapped)] == [h.id for h in in_order]


def test_purge_is_on_wherever_it_is_welded(full: Told) -> None:
    """Every tack and run lies inside a purge of its own frame, turned on early enough."""
    turned: dict[str, list[Happening]] = defaultdict(list)
    for h in sorted(full.by_kind["purge"], key=lambda h: h.at):
        turned[h.fields["line"]].append(h)
    for own in turned.values():
        assert [h.fields["act"] for h in own] == ["on", "off"] * (len(own) // 2)
    for h in [*full.by_kind["tack"], *full.by_kind["pass"]]:
        own = turned[h.fields["purge_line"]]
        on = own[bisect_right(own, h.at, key=lambda t: t.at) - 1]
        assert (on.fields["act"], on.fields["frame"]) == ("on", h.fields["frame"]), h
        least = 5 if h.fields["joint"][0] in "JK" else 3
        assert h.moments.get("arc_started", h.at) - on.at >= least * MINUTE - 1000, h


def test_every_run_has_what_the_plan_asks(full: Told) -> None:
    """Each run carries an oxygen value; the counter's figures are missing only while its cable was out."""
    for h in full.by_kind["pass"]:
        values = h.fields["values"]
        assert values["oxygen"]["by"].startswith("PA-"), h
        if "mean_current" not in values:
            assert h.fields["machine"] == "PS-2"
            assert "2025-11-18" <= show(h.at)[:10] <= "2025-11-20"
    fourth = [h for h in full.by_kind["pass"] if h.fields["run"] == "fill" and int(h.fields["joint"][1:]) % 4 == 0]
    assert all("interpass" in h.fields["values"] for h in fourth if h.fields["joint"][0] in "JK")


def test_every_joint_is_looked_at_outside(full: Told) -> None:
    """Every joint has an outside look in every attempt."""
    looked = {
        (h.fields["frame"], h.fields["joint"], h.fields.get("attempt", 1))
        for h in full.by_kind["look"]
        if h.fields["side"] == "outside"
    }
    welded = {(h.fields["frame"], h.fields["joint"], h.fields.get("attempt", 1)) for h in full.by_kind["pass"]}
    assert welded - looked == set()


def test_the_house_is_closed_on_closed_days(full: Told) -> None:
    """Nothing is welded on weekends and in closed weeks."""
    assert all(working(clock_of(h.at).date()) for h in full.by_kind["pass"])
