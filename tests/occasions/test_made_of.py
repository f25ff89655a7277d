"""What was made of a state is made again only when what it was made of is something else."""

from server.occasions.made_of import MadeOf


def with_one_more(known: list[str] | None) -> list[str]:
    return [*(known or []), "made"]


def test_it_is_made_once_of_the_same_sources():
    """The very same object gives the same answer; one that is only equal to it is another, and gets what was known."""
    made_of, source, equal = MadeOf(), ["a"], ["a"]
    first = made_of.kept("answer", (source,), with_one_more)
    assert made_of.kept("answer", (source,), with_one_more) is first
    assert made_of.kept("answer", (equal,), with_one_more) == ["made", "made"]


def test_a_later_state_goes_on_from_an_earlier_one_and_leaves_it_alone():
    """The later state begins with what was known; what it makes anew the earlier one does not see."""
    earlier, source = MadeOf(), object()
    first = earlier.kept("answer", (source,), with_one_more)
    later = MadeOf(earlier)
    assert later.kept("answer", (source,), with_one_more) is first
    assert later.kept("answer", (object(),), with_one_more) == ["made", "made"]
    assert earlier.kept("answer", (source,), with_one_more) is first
