"""Which suspect sets are asked for."""

import random

from server.pages.suspects.page import KINDS, SetsAsked
from server.work.sets_in_short import SetInShort


def wanted(asked: SetsAsked, one: SetInShort) -> bool:
    """Tell it of one by itself."""
    named = asked.find.lower() in one.subject.lower()
    return named and asked.kind in ("", one.kind) and (one.still_in > 0 or not asked.holding)


def test_those_asked_for_are_those_wanted_one_by_one():
    """By letters, by kind, by what they still hold back, or by several of these: the same in the same order."""
    dice = random.Random(5)
    every = [SetInShort(str(n), dice.choice(("B1-T", "b2-P", "W01")), dice.choice(list(KINDS)), "x", None, n, 3,
                        dice.choice((0, 2))) for n in range(80)]  # fmt: skip
    for find in ("", "b", "B2", "zz"):
        for kind in ("", *KINDS):
            for holding in (False, True):
                asked = SetsAsked(find, kind, holding)
                assert list(asked.of(every)) == [each for each in every if wanted(asked, each)], asked
