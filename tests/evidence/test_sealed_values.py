"""Sealed values: what the walk gives back, and the paths it names."""

import pytest

from server.evidence.refusals import LineRefused
from server.evidence.sealed_values import Unfit, in_canonical_order


def test_names_come_out_in_order_at_every_level():
    """The walk orders the names of every object, however deep, and leaves lists in their own order."""
    ordered = in_canonical_order({"b": [{"z": 1, "a": 2}, 0], "a": None})
    assert repr(ordered) == "{'a': None, 'b': [{'a': 2, 'z': 1}, 0]}"


def test_the_value_given_is_left_as_it_was():
    """The walk gives a new value and changes nothing in the one it was handed."""
    value = {"b": [2, 1], "a": 1}
    in_canonical_order(value)
    assert list(value) == ["b", "a"]


def test_what_the_parser_left_is_named_by_its_path():
    """An unfit value deep inside is refused with the path through objects and lists, and its own advice."""
    with pytest.raises(LineRefused, match=r"^looks\[1\]\.shade\.b: found 0\.5; expected half as text$"):
        in_canonical_order({"looks": [{}, {"shade": {"b": Unfit("0.5", "half as text")}}]})


def test_an_unknown_named_tuple_is_not_taken_for_a_list():
    """A record type of ours is refused rather than silently flattened into a list."""
    with pytest.raises(LineRefused, match="a list or an object"):
        in_canonical_order(type("Pair", (tuple,), {})((1, 2)))
