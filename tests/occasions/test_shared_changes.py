"""What frames share and is not named as changed stands as it stood; asked about by name it is what stands of all."""

from collections.abc import Iterator
from random import Random

import pytest

from server.occasions import shared_changes
from server.occasions.build import Shop
from server.occasions.known import Known
from server.occasions.shared_changes import changed_things, every_thing
from server.occasions.tables import Tables
from tests.occasions.test_carried_on import SOME, STAGES, carried, placed, told

_ALL_TOLD = len(told([0]))


def hold(every: list[int], jitter: list[int], cuts: list[int], papers: list[int]) -> int:
    """Carry the shop on and hold what is said to have stayed; give how often something was."""
    lines = placed([told(jitter)[each] for each in every])
    before, narrow = Tables(Known(SOME), None), 0
    for now, everything in carried(lines, [each for each in cuts if each < len(lines)], papers):
        names = every_thing(now) | every_thing(before)
        then, after = (Shop(everything, tables=tables) for tables in (before, now))
        assert after.shared(names) == after.shared()
        changed = changed_things(before, now)
        if changed is not None:
            stayed = names - changed
            assert after.shared(stayed) == then.shared(stayed)
            narrow += bool(stayed)
        before = now
    return narrow


def runs() -> Iterator[tuple[list[int], list[int], list[int], list[int]]]:
    """Orders and stretches: as it was told, each paper after a line of its own, then drawn by some fixed seeds."""
    in_order, each_line = list(range(_ALL_TOLD)), list(range(_ALL_TOLD))
    yield in_order, [0], each_line, [1]
    yield in_order, [0], each_line, [len(STAGES) - 2]
    yield in_order, [0], each_line[_ALL_TOLD - len(STAGES) + 1 :], list(range(len(STAGES)))
    for seed in range(4):
        drawn = Random(seed)
        order, jitter = drawn.sample(in_order, _ALL_TOLD), [drawn.randint(0, 4000) for _ in range(7)]
        # As in a register, what was told once stays told.
        yield order, jitter, drawn.sample(each_line, 12), sorted(drawn.choices(range(1, len(STAGES)), k=13))


def test_what_is_not_named_stayed():
    """Whatever comes in whatever order, with papers told between: nothing changes that was not said to."""
    narrow = [hold(*run) for run in runs()]
    assert narrow[0] > _ALL_TOLD // 2
    assert min(narrow) > 0


@pytest.mark.parametrize("forgotten", ["_still_open", "_cylinders", "_readers", "_papers", "_concessions"])
def test_who_forgets_a_kind_is_found_out(monkeypatch: pytest.MonkeyPatch, forgotten: str):
    """Control: without one of the kinds that are named for another's sake, or for time alone, something else stands."""
    monkeypatch.setattr(shared_changes, forgotten, lambda *_: set())
    with pytest.raises(AssertionError):
        assert [hold(*run) for run in runs()]
