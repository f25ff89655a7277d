"""Where the record stands, read anew from the database, is where the writer stood."""

from server.record.book_of_lines import Record
from server.record.standing import read_standing
from tests.record.fixtures import append
from tests.record.sample_lines import new_entry


def test_read_anew_it_is_the_same(either: Record):
    """Size, tree, chains and the root over all of them are the same, before and behind a checkpoint."""
    for checkpoint in (False, True, False):
        append(either, new_entry(1 + either.condition().lines), new_entry(100 + either.condition().lines, frame="F-2"))
        if checkpoint:
            either.checkpoint().result()
        kept = either._writer._standing
        assert kept is not None
        with either.reads() as reads:
            found = read_standing(reads._connection)
        assert (found.size, found.sealed_size, found.heads) == (kept.size, kept.sealed_size, kept.heads)
        assert found.frontier.root() == kept.frontier.root()
        assert found.subjects_root() == kept.subjects_root()
        assert len(found.subjects) == len(found.heads)


def test_an_empty_record_stands_at_nothing(either: Record):
    """With no line there is no chain, and the tree is empty."""
    with either.reads() as reads:
        found = read_standing(reads._connection)
    assert (found.size, found.sealed_size, found.heads) == (0, 0, {})
