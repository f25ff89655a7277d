"""What held when, by bisection."""

from hypothesis import given
from hypothesis import strategies as st

from server.occasions.spans import Spans

SPANS = Spans([(20, "b"), (10, "a"), (30, "c")])


def test_what_starts_on_a_moment_holds_on_it():
    """Before the first start nothing holds; on a start its value does, until the next one."""
    assert [SPANS.at(moment) for moment in (9, 10, 19, 20, 99)] == [None, "a", "a", "b", "c"]


def test_neighbours_are_strictly_before_and_after():
    """The last before and the first after a moment never start on it."""
    assert SPANS.last_before(20) == (10, "a")
    assert SPANS.last_before(10) is None
    assert SPANS.first_after(20) == (30, "c")
    assert SPANS.first_after(30) is None
    assert SPANS.between(10, 30) == ["b"]


@given(st.lists(st.integers(0, 50), unique=True), st.integers(-5, 55))
def test_bisection_agrees_with_looking_at_all_of_them(starts: list[int], moment: int):
    """The value that holds is the one with the latest start not after the moment."""
    held = [start for start in starts if start <= moment]
    assert Spans([(start, start) for start in starts]).at(moment) == max(held, default=None)
