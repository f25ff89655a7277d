"""A mapping told a little more is what a plain one would be, shares what stood, and says what came to it."""

from collections.abc import Mapping
from itertools import pairwise

from server.facts.layered import Layered, differing, layered

STOOD: Mapping[str, int] = {f"P-{number}": number for number in range(2000)}
TOLD: tuple[dict[str, int], ...] = (
    {"new": 1},
    {"P-7": -7},
    {"new": 2, "newer": 3},
    {"P-7": -8, "P-1999": 0, "newest": 4},
)


def test_it_reads_like_a_plain_one():
    """Names told anew keep their place and new ones follow, whichever way it is asked."""
    found, plain = STOOD, dict(STOOD)
    for told in TOLD:
        found, plain = layered(found, told), plain | told
        assert isinstance(found, Layered)
        assert list(found.items()) == list(plain.items())
        assert list(found.values()) == list(plain.values())
        assert (list(found), len(found)) == (list(plain), len(plain))
        for name in (*plain, "none"):
            assert (name in found, found.get(name)) == (name in plain, plain.get(name))
        assert {name: found[name] for name in plain} == plain == {**found}
    assert STOOD["P-7"] == 7


def test_what_changed_is_put_together_once_there_is_much_of_it():
    """A plain one is made again before the layer has grown large, and of what is small at once."""
    found, put_together = STOOD, 0
    for number in range(200):
        found = layered(found, {f"new {number}": number})
        put_together += type(found) is dict
    assert put_together == 4
    assert list(found)[2000:] == [f"new {number}" for number in range(200)]
    assert type(layered({"one": 1}, {"two": 2})) is dict


def test_it_tells_what_came_to_one_of_before():
    """What came is told by the layers; where something was told anew, or the other is no earlier one, it is not."""
    states = [STOOD]
    for number in range(5):
        states.append(layered(states[-1], {f"new {number}": number}))
    for number, (before, now) in enumerate(pairwise(states)):
        assert isinstance(now, Layered)
        assert now.came_since(before) == {f"new {number}": number}
    last = layered(states[-1], {})
    assert isinstance(last, Layered)
    assert last.came_since(STOOD) == {f"new {number}": number for number in range(5)}
    for other in (dict(STOOD), layered(STOOD, {"P-7": 0}), layered(STOOD, {"new 0": 9})):
        assert last.came_since(other) is None


def test_what_is_empty_by_now_goes():
    """A name that came and goes again is gone with it, one that stood long goes as from a plain one."""
    found = layered(layered(STOOD, {"new": 1, "newer": 2}), {"P-3": -3, "new": 0}, empty=["new"])
    assert isinstance(found, Layered)
    assert list(found.items()) == list((dict(STOOD) | {"P-3": -3, "newer": 2}).items())
    without = layered(found, {"P-3": 0, "P-4": 4}, empty=["P-3"])
    assert type(without) is dict
    assert list(without.items()) == [(name, each) for name, each in found.items() if name != "P-3"]
    assert layered({"one": 1}, {"one": 0, "two": 2}, empty=["one"]) == {"two": 2}


def test_what_differs_is_told_without_going_through_all():
    """Names told anew, come and gone between two states are told, also where one was put together in between."""
    objects: dict[str, object] = {name: object() for name in STOOD}
    states: list[Mapping[str, object]] = [objects]
    for number in range(50):
        told = {f"new {number}": object(), "P-8": object(), f"P-{number * 7}": object()}
        states.append(layered(states[-1], told, empty=[f"new {number - 3}"]))
    assert {type(each) for each in states} == {dict, Layered}
    for before, now in [*pairwise(states), (states[3], states[40]), (states[12], states[5]), (states[9], states[9])]:
        wanted = {name for name in {**before, **now} if before.get(name) is not now.get(name)}
        assert set(differing(before, now)) == wanted
        assert len(differing(before, now)) == len(wanted)


def test_told_by_what_both_stand_on():
    """Of two that stand on the same nothing is asked but what lies over it."""

    class Counting(dict[str, object]):
        asked = 0

        def get(self, name: str, default: object = None) -> object:
            self.asked += 1
            return super().get(name, default)

    stood = Counting({name: object() for name in STOOD})
    one = layered(stood, {"new": 1})
    assert set(differing(one, layered(one, {"P-7": 7, "newer": 2}))) == {"P-7", "newer"}
    assert stood.asked < 10
