"""A long list has a part for every row and no row twice, and each part says where the others are."""

from server.pages.frame.paged import part_of


def test_every_row_stands_in_one_part() -> None:
    """Followed from part to part the list is whole, in its order, whether the last part is full or not."""
    for count in (1, 3, 4, 5, 8):
        rows = list(range(count))
        parts = [part_of(rows, number, 4, "/x") for number in range(1, part_of(rows, 1, 4, "/x").parts + 1)]
        assert [row for part in parts for row in part.rows] == rows
        assert [(part.first, part.last, part.total) for part in parts][-1][1:] == (count, count)


def test_a_part_that_is_none_gives_the_nearest() -> None:
    """An address from when the list was longer, or a typed one, shows rows; an empty list is one empty part."""
    assert [part_of([1, 2, 3], asked, 2, "/x").number for asked in (-7, 0, 3, 99)] == [1, 1, 2, 2]
    assert (part_of([], 5, 2, "/x").number, part_of([], 5, 2, "/x").total) == (1, 0)


def test_an_address_keeps_what_was_asked() -> None:
    """The first part is the list's own address; the others add their number to whatever was asked."""
    assert [part_of([1, 2, 3], 1, 2, "/x").at(number) for number in (1, 2)] == ["/x", "/x?part=2"]
    assert part_of([1, 2, 3], 1, 2, "/x?serial=4").at(2) == "/x?serial=4&part=2"
