"""How the record is, told to whoever looks after it."""

import pytest

from server.record.book_of_lines import Record
from server.record.condition import notes_on_version
from server.record.schema import REVISION
from tests.record.fixtures import append
from tests.record.sample_lines import new_entry


def test_the_condition_of_an_open_record(either: Record):
    """Engine, schema, guards, how much there is and how much of it is sealed."""
    append(either, new_entry(1))
    either.checkpoint().result()
    append(either, new_entry(2))
    condition = either.condition()
    assert condition.engine in ("sqlite", "postgresql")
    assert condition.version[0].isdigit()
    assert (condition.schema, condition.missing_guards) == (REVISION, ())
    assert (condition.lines, condition.sealed_lines) == (3, 2)
    assert condition.fit


@pytest.mark.parametrize(
    ("version", "noted"),
    [
        ((3, 40, 1), True),
        ((3, 44, 5), True),
        ((3, 44, 6), False),
        ((3, 45, 0), True),
        ((3, 50, 6), True),
        ((3, 50, 7), False),
        ((3, 51, 2), True),
        ((3, 51, 3), False),
        ((3, 52, 0), False),
        ((4, 0, 0), False),
    ],
)
def test_sqlite_versions_that_need_a_word(version: tuple[int, ...], noted: bool):
    """Versions before the mended ones are noted, the mended and later ones are not."""
    assert bool(notes_on_version("sqlite", version)) is noted


def test_other_engines_need_no_word():
    """The note is about SQLite only."""
    assert notes_on_version("postgresql", (15, 0)) == ()
