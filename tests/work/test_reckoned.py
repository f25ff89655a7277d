"""What only moves with its design is reckoned once."""

from server.work.reckoned import reckoned


def test_the_same_key_is_reckoned_once() -> None:
    """Asked again under the same key, the figure is not reckoned anew; another key is another figure."""
    times = []

    def reckon() -> int:
        times.append(1)
        return len(times)

    assert [reckoned(("a", 1), reckon), reckoned(("a", 1), reckon), reckoned(("a", 2), reckon)] == [1, 1, 2]


def test_it_does_not_grow_without_end() -> None:
    """After hundreds of other keys an old figure may be reckoned anew, and comes out the same."""
    assert reckoned("old", lambda: 7) == 7
    for number in range(600):
        reckoned(("many", number), lambda: 0)
    assert reckoned("old", lambda: 7) == 7
