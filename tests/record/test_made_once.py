"""What takes long to make is made once for a state of the record, and let go when it may hold what was removed."""

from collections.abc import Callable

from server.record.book_of_lines import Record
from server.record.made_once import MadeOnce
from tests.record.fixtures import append
from tests.record.sample_lines import new_entry


def noting(made: list[int], what: int) -> Callable[[], int]:
    def make() -> int:
        made.append(what)
        return what

    return make


def test_made_once_for_a_state(record: Record):
    """Asked twice it is made once; after one more line it is made anew."""
    made: list[int] = []
    for lines in ((new_entry(1),), (), (new_entry(2),)):
        append(record, *lines)
        with record.reads() as reads:
            position = reads.last_position()
            assert reads.made_once("sum", noting(made, position)) == position
    assert made == [1, 2]


def test_an_earlier_state_makes_its_own():
    """Who still looks at an earlier state is given what was made of that state, and the newer one stays."""
    once, made = MadeOnce(), list[int]()
    assert [once.at("sum", position, noting(made, position)) for position in (2, 1, 2)] == [2, 1, 2]
    assert made == [2, 1]


def test_forgotten_is_made_anew():
    """After forgetting it is made again, also at the same position."""
    once, made = MadeOnce(), list[int]()
    once.at("sum", 1, noting(made, 1))
    once.forget()
    assert once.at("sum", 1, noting(made, 2)) == 2
