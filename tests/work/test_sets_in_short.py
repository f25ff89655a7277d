"""Suspect sets in short say of each what the whole set says, also when carried on from state to state."""

from itertools import chain, pairwise

import pytest

from server.facts.suspect import SuspectSet
from server.occasions.build import Shop
from server.occasions.tables import Tables
from server.work.sets_in_short import SetInShort, _RestsOn, _things, _used_otherwise, sets_in_short
from tests.occasions.test_carried_on import STAGES, carried, placed, told

EVERY = placed(told([0]))
CUTS = [*range(10, len(EVERY), 12), *range(len(EVERY) - len(STAGES), len(EVERY))]


def of(found: SuspectSet) -> SetInShort:
    stretch = found.since_ms, found.until_ms
    joints = len(found.suspects), len(found.still_in)
    return SetInShort(found.check, found.subject, found.kind, found.thing, *stretch, *joints)


def differing() -> list[tuple[SetInShort, SetInShort]]:
    """The sets that say something else than the whole ones, over all states; what they rest on was told in between,
    or was all told before and the entries come one by one, the passes last."""
    found = []
    passes_last = placed(sorted(told([0]), key=lambda each: each.recorded.entry.kind == "pass"))
    one_by_one = carried(passes_last, range(1, len(EVERY)), [len(STAGES) - 1])
    for tables, known in chain(carried(EVERY, CUTS, range(len(STAGES))), one_by_one):
        whole = {each.check: of(each) for each in Shop(known, tables=tables).suspect_sets()}
        short = {each.check: each for each in sets_in_short(tables)}
        assert short.keys() == whole.keys()
        found += [(short[check], whole[check]) for check in whole if short[check] != whole[check]]
    return found


def test_they_say_what_the_whole_sets_say():
    """At every state, the newest failure first."""
    assert differing() == []
    for tables, _ in carried(EVERY, CUTS, range(len(STAGES))):
        ends = [each.until_ms for each in sets_in_short(tables)]
    assert len(ends) > 2
    assert ends == sorted(ends, reverse=True)


def test_a_count_kept_too_long_is_found_out(monkeypatch: pytest.MonkeyPatch):
    """Control: where nobody asks whether a count still holds, some say what was so before."""
    monkeypatch.setattr(_RestsOn, "holds", lambda *_: True)
    assert differing() != []


def test_what_a_pass_reaches():
    """One more pass changes what is told of its lines, its welder, its meter and its machine; a check of a meter
    reaches the lines it read as well."""
    states = (tables for tables, _ in carried(placed(told([0])), range(1, len(EVERY)), [1]))
    pairs = [(before, now) for before, now in pairwise(states) if len(now.uses.all) > len(before.uses.all)]
    for before, now in pairs:
        (use,) = set(now.uses.all) - set(before.uses.all)
        named = {*use.lines, use.welder, use.oxygen_by, use.machine} - {None}
        assert _used_otherwise(before.uses, now.uses) == named
    tables = pairs[-1][1]
    meter = tables.every_failed()[0]._replace(kind="calibration", thing="AN")
    assert _things(tables, meter) == {"AN", *(use.purge_line for use in tables.uses.all if use.oxygen_by == "AN")}
    assert len(_things(tables, meter)) > 1


def test_what_let_a_joint_out_is_told(monkeypatch: pytest.MonkeyPatch):
    """Control: in the last state some are still in and some are let out, so the comparison is no empty one."""
    *_, (tables, _) = carried(EVERY, CUTS, range(len(STAGES)))
    assert 0 < sum(each.still_in for each in sets_in_short(tables)) < sum(each.joints for each in sets_in_short(tables))
    assert isinstance(tables, Tables)
