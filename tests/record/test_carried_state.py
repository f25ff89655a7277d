"""What is made of the whole record is carried on from the nearest earlier state, and let go when it may not be kept."""

from collections.abc import Callable

from server.record.book_of_lines import Record
from server.record.carried_state import CarriedOn
from server.record.reads import Reads
from server.record.written import Written
from tests.record.fixtures import append
from tests.record.sample_lines import new_entry

Positions = list[int]


def carried(record: Record) -> Positions:
    """Give the positions that a state was made at, one after the other."""
    with record.reads() as reads:
        position = reads.last_position()
        return reads.carried_on(position, noting(position))


def noting(position: int) -> Callable[[Positions | None], Positions]:
    return lambda before: [*(before or []), position]


def test_carried_on_from_the_state_before(record: Record):
    """Asked twice it is made once; after one more line it is made of the state before."""
    states = []
    for lines in ((new_entry(1),), (), (new_entry(2),)):
        append(record, *lines)
        states.append(carried(record))
    assert states == [[1], [1], [1, 2]]


def test_what_the_writer_makes_is_given_to_nobody(record: Record):
    """In the writer's turn a state is made of the kept one before it, and is gone with the turn, which may fail."""
    append(record, new_entry(1))
    carried(record)
    made: list[Positions] = []

    def verb(reads: Reads) -> Written[None]:
        made.append(reads.carried_on(2, noting(99)))
        return Written(answer=lambda _: None, lines=(new_entry(2),))

    record.write(verb).result()
    assert (made, carried(record)) == ([[1, 99]], [1, 2])


def test_an_earlier_state_is_made_of_those_before_it():
    """Who still looks at an earlier state is given one that knows nothing later, and the newer one stays."""
    states: CarriedOn[Positions] = CarriedOn()
    asked = [states.at(each, noting(each)) for each in (5, 9, 7, 9)]
    assert asked == [[5], [5, 9], [5, 7], [5, 9]]


def test_few_states_are_kept():
    """The oldest go when there are many."""
    states: CarriedOn[Positions] = CarriedOn()
    for each in range(1, 20):
        states.at(each, noting(each))
    assert states.nearest(9) is None
    assert states.nearest(18) == list(range(1, 19))


def test_forgotten_is_made_anew():
    """After forgetting it is made of nothing again, also at the same position."""
    states: CarriedOn[Positions] = CarriedOn()
    states.at(1, noting(1))
    states.forget()
    assert states.at(1, noting(2)) == [2]
