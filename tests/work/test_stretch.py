"""Which passes ended within a stretch of time is found in order, and is what asking each of them finds."""

from itertools import product

from server.work.stretch import EVER, Stretch
from tests.facts.test_in_parts import few_are_many
from tests.occasions.test_carried_on import carried
from tests.work.test_sought import CUTS, EVERY, PAPERS

ENDS = (0, 5, -1)


def test_those_that_ended_in_it():
    """From any pass on and before any other, the end is left out; one stretch within another is what both hold."""
    with few_are_many():
        *_, (tables, _) = carried(EVERY, CUTS, PAPERS)
        uses = list(tables.uses.all)
        ends_ms = [uses[at].at.at_ms for at in ENDS]
        stretches = [Stretch(*ends) for ends in product(ends_ms, repeat=2)]
        for one, other in product([EVER, *stretches], repeat=2):
            within = one.within(other)
            inside = [use for use in uses if one.holds(use.at.at_ms) and other.holds(use.at.at_ms)]
            assert list(within.of(uses)) == inside
            assert [use for at, use in enumerate(uses) if within.bits_of(uses) >> at & 1] == inside
