"""The walk over the entries: the sentences that name what is wrong."""

from typing import Any, cast

import pytest

from server.evidence.chain_subject import ChainSubject
from server.evidence.row_walk import RowWalk
from server.evidence.stored import StoredLink
from tests.evidence.sealed_record import FRAME, frame_and_line


def said_of(rows):
    walk = RowWalk()
    return [str(found) for row in rows for found in walk.take(row)]


def test_sound_rows_give_nothing_to_say():
    """Entries as the writer left them pass without a word, and the walk ends at the writer's own heads."""
    record, walk = frame_and_line(), RowWalk()
    assert [found for row in record.rows for found in walk.take(row)] == []
    assert walk.chains == record.heads
    assert walk.frontier.size == len(record.rows)


def test_altered_bytes_are_named_by_position_and_id():
    """The sentence says which entry it is."""
    rows = frame_and_line().rows
    rows[6] = rows[6]._replace(line=rows[6].line + b" ")
    assert said_of(rows) == ["entry at position 7, id id-7: bytes do not match its leaf"]


@pytest.mark.parametrize(
    ("cut", "said"),
    [
        (slice(6, 7), "position 7 is missing: after 6 comes entry at position 8, id id-8"),
        (slice(6, 9), "positions 7 to 9 are missing: after 6 comes entry at position 10, id id-10"),
        (slice(0, 1), "position 1 is missing: after 0 comes entry at position 2, id id-2"),
    ],
)
def test_missing_positions_are_named(cut, said):
    """One position or several, also at the very beginning."""
    rows = frame_and_line().rows
    del rows[cut]
    assert said_of(rows)[0] == said


def test_a_row_out_of_order_is_named():
    """Two rows read in the wrong order: the gap and the late row are both said."""
    rows = frame_and_line().rows
    rows[6], rows[7] = rows[7], rows[6]
    said = said_of(rows)
    assert [line for line in said if "missing" in line] == [
        "position 7 is missing: after 6 comes entry at position 8, id id-8"
    ]
    assert "entry at position 7, id id-7: stands behind position 8, so it is out of order or there twice" in said


def test_a_row_there_twice_is_named():
    """The same row again is out of order."""
    rows = frame_and_line().rows
    assert said_of([*rows[:7], rows[6]])[0].startswith("entry at position 7, id id-7: stands behind position 7")


def test_a_link_taken_away_is_counted():
    """A frame's entry that is no longer said to be the frame's shows at the frame's next entry."""
    rows = frame_and_line().rows
    rows[0] = rows[0]._replace(links=())
    assert said_of(rows) == [
        "entry at position 3, id id-3: is number 2 of frame F-1, expected 1; 1 entry is left out before it"
    ]


def test_a_link_put_in_is_counted():
    """An entry slipped into a frame's chain shows there or at the next one, whose number is now too low."""
    rows = frame_and_line().rows
    head = rows[0].links[0].head
    rows[1] = rows[1]._replace(links=(*rows[1].links, StoredLink(FRAME, 2, head)))
    said = said_of(rows)
    assert (
        said[0] == "entry at position 2, id id-2: head 2 of frame F-1 does not follow from its leaf and the head before"
    )
    assert said[1] == (
        "entry at position 3, id id-3: is number 2 of frame F-1, expected 3; it or one before it was put in"
    )


def test_an_altered_leaf_shows_in_bytes_and_heads():
    """A leaf that was changed fits neither its bytes nor the heads, and the next entry is not blamed for it."""
    rows = frame_and_line().rows
    rows[2] = rows[2]._replace(leaf=bytes(32))
    assert said_of(rows) == [
        "entry at position 3, id id-3: bytes do not match its leaf",
        "entry at position 3, id id-3: head 2 of frame F-1 does not follow from its leaf and the head before",
        "entry at position 3, id id-3: head 2 of gas line L-1 does not follow from its leaf and the head before",
    ]


def test_a_kind_that_has_no_chain_is_named():
    """A link to something that has no chain is reported and not followed."""
    rows, unknown = frame_and_line().rows, ChainSubject(cast(Any, "tool"), "T")
    rows[0] = rows[0]._replace(links=(*rows[0].links, StoredLink(unknown, 1, bytes(32))))
    assert said_of(rows)[0].startswith("entry at position 1, id id-1: names tool T; expected a chain of ['frame', 'gas")
