"""What only grows is read once: only what lies behind the last position is asked for again."""

from server.record.carried import Carried


def reading(asked: list[tuple[int, int]]):
    def read(after: int, position: int) -> list[tuple[int, str]]:
        asked.append((after, position))
        return [(at, f"item {at}") for at in range(after + 1, position + 1) if at % 10 == 0]

    return read


def test_only_the_new_is_read():
    """The second question reads from where the first ended, the third nothing."""
    asked: list[tuple[int, int]] = []
    carried: Carried[str] = Carried()
    assert carried.up_to(25, None, reading(asked)) == ["item 10", "item 20"]
    assert carried.up_to(30, None, reading(asked)) == ["item 10", "item 20", "item 30"]
    assert carried.up_to(29, None, reading(asked)) == ["item 10", "item 20"]
    assert asked == [(0, 25), (25, 30)]


def test_what_may_be_taken_back_is_not_carried():
    """Items behind the last kept position are given to the writer and read again by the next one who asks."""
    asked: list[tuple[int, int]] = []
    carried: Carried[str] = Carried()
    assert carried.up_to(30, 20, reading(asked)) == ["item 10", "item 20", "item 30"]
    assert carried.up_to(20, 20, reading(asked)) == ["item 10", "item 20"]
    assert carried.up_to(20, 20, reading(asked)) == ["item 10", "item 20"]
    assert asked == [(0, 30), (0, 20)]


def test_some_are_found_by_their_positions():
    """Of the positions asked for, those that carry an item give it, whatever their order; nothing is read for it."""
    carried: Carried[str] = Carried()
    carried.up_to(25, None, reading([]))
    assert carried.among([20, 7, 10, 30, 21]) == {20: "item 20", 10: "item 10"}
    assert carried.among([]) == {}
