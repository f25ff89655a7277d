"""A long list told a little more is what a plain one would be, and shares every part in which nothing changed."""

from bisect import bisect_left
from collections.abc import Iterator
from contextlib import contextmanager
from unittest.mock import patch

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from server.facts import in_parts, layered

_AT_ONCE = 12


@contextmanager
def few_are_many(many: int = 4) -> Iterator[None]:
    """Keep lists in parts, and mappings in layers, that are long by this number of items already."""
    with (
        patch.object(in_parts, "_LONG", many),
        patch.object(in_parts, "_AT_MOST", many),
        patch.object(layered, "_WORTH_IT", many),
    ):
        yield


@settings(max_examples=40)
@given(st.lists(st.tuples(st.integers(0, 60), st.integers(0, 60), st.integers(0, _AT_ONCE)), max_size=12))
def test_it_reads_like_a_plain_one(changes: list[tuple[int, int, int]]):
    """Whatever is put in the place of whatever, each way of reading it gives what a plain list gives."""
    plain = list(range(40))
    with few_are_many():
        found = in_parts.in_parts(plain)
        for number, (one, other, count) in enumerate(changes):
            low, high = sorted((min(one, len(plain)), min(other, len(plain))))
            more = [1000 * number + each for each in range(count)]
            found = in_parts.put_in(found, low, high, more)
            plain = [*plain[:low], *more, *plain[high:]]
            told = found, len(found), list(found), list(reversed(found)), found[low:high], found[::-2], found[-3:]
            assert told == (
                plain, len(plain), plain, plain[::-1], plain[low:high], plain[::-2], plain[-3:],
            )  # fmt: skip
            assert [found[at] for at in range(-len(plain), len(plain))] == [*plain, *plain]
            assert (found != plain, found == [*plain, 1], found == tuple(plain)) == (False, False, False)
            with pytest.raises(IndexError):
                found[len(plain)]


@given(st.lists(st.integers(0, 30), max_size=40), st.integers(-1, 31))
def test_the_first_place_is_found_by_parts(numbers: list[int], value: int):
    """The first of those that are no less is found where a plain list has it, also among many that are alike."""
    plain = sorted(numbers)
    with few_are_many():
        found = in_parts.in_parts(plain)
    assert in_parts.first_at(found, value, lambda each: each) == bisect_left(plain, value)


def test_what_stays_is_shared():
    """A change to a million items costs one part of them; one in the middle leaves those before and behind."""
    items = in_parts.in_parts(list(range(1_000_000)))
    now = in_parts.put_in(items, 500_250, 500_251, [-1, -2])
    assert isinstance(items, in_parts.InParts)
    assert isinstance(now, in_parts.InParts)
    before = {id(part) for part in items.parts}
    assert [len(part) for part in now.parts if id(part) not in before] == [501]


def test_a_part_that_grows_is_cut_in_two():
    """However often something comes at one place, no part grows large."""
    items = in_parts.in_parts(list(range(2000)))
    for number in range(3000):
        items = in_parts.put_in(items, 700, 700, [-number])
    assert isinstance(items, in_parts.InParts)
    assert max(map(len, items.parts)) <= 1000
    assert list(items[700:3700]) == [-number for number in reversed(range(3000))]


@pytest.mark.parametrize("many", [4, 2000])
def test_how_much_is_the_same_at_both_ends(many: int):
    """The same objects are counted from both ends, none of them twice, in parts as in plain lists."""
    plain = [object() for _ in range(40)]
    with few_are_many(many):
        old = in_parts.in_parts(plain)
        for low, high, more in ((20, 20, 1), (20, 23, 0), (0, 0, 2), (39, 40, 0), (0, 40, 3), (7, 7, 0)):
            new = in_parts.put_in(old, low, high, [object() for _ in range(more)])
            changed = low != high or more
            assert in_parts.same_ends(old, new) == ((low, 40 - high) if changed else (40, 0))
            assert in_parts.same_ends(new, old) == in_parts.same_ends(old, new)
    assert in_parts.same_ends(plain[:1] * 3, plain[:1] * 2) == (2, 0)
