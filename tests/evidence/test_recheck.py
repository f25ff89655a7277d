"""The recheck: a sound record passes, and whatever is done to it without the key is named."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.evidence.canonical import canonical_line
from server.evidence.checkpoints import Checkpoint, sign_checkpoint
from server.evidence.stored import StoredLink
from tests.evidence.sealed_record import FRAME, LINE, SIGNER, SealedRecord, frame_and_line

SOUND = frame_and_line(20)
WHICH = st.integers(0, len(SOUND.rows) - 1)


@given(st.lists(st.tuples(st.binary(max_size=9), st.sets(st.sampled_from([FRAME, LINE])), st.booleans()), max_size=25))
def test_a_sound_record_passes(entries):
    """Whatever was recorded, of whichever subjects, sealed wherever: there is no false alarm."""
    record = SealedRecord()
    for line, subjects, sealed in entries:
        record.add(line, *sorted(subjects))
        if sealed:
            record.seal()
    assert record.found() == []


@given(WHICH, st.integers(min_value=0), st.integers(1, 255))
def test_any_altered_byte_is_named_by_position_and_id(which, at, change):
    """Alter any byte of any stored entry, seals included: exactly that entry is named."""
    record = frame_and_line(20)
    line = bytearray(record.rows[which].line)
    line[at % len(line)] ^= change
    record.rows[which] = record.rows[which]._replace(line=bytes(line))
    said = [str(found) for found in record.found() if found.name == "bytes differ"]
    assert said == [f"entry at position {which + 1}, id id-{which + 1}: bytes do not match its leaf"]
    assert {position for _, position in record.names()} == {which + 1}


@given(WHICH, st.integers(0, 31), st.integers(1, 255))
def test_an_altered_head_is_named(which, at, change):
    """Alter any byte of any stored head: the entry it belongs to is named."""
    record = frame_and_line(20)
    link, *more = record.rows[which].links
    head = bytearray(link.head)
    head[at] ^= change
    record.rows[which] = record.rows[which]._replace(links=(link._replace(head=bytes(head)), *more))
    assert ("chain head", which + 1) in record.names()


@given(WHICH)
def test_a_dropped_entry_is_named(which):
    """Drop any entry: its position is missing, or, the last one, a checkpoint was signed over more than there is."""
    record = frame_and_line(20)
    del record.rows[which]
    expected = "position missing" if which < len(record.rows) else "checkpoint beyond"
    assert (expected, which + 1) in record.names()


@given(WHICH, WHICH)
def test_two_rows_exchanged_are_named(one, other):
    """Read two rows in each other's place: both places are named."""
    record = frame_and_line(20)
    record.rows[one], record.rows[other] = record.rows[other], record.rows[one]
    low, high = sorted((one, other))
    if low == high:
        assert record.found() == []
    else:
        assert {("position missing", low + 1), ("position out of order", low + 1)} <= set(record.names())


@given(WHICH)
def test_a_dropped_entry_is_noticed_after_renumbering(which):
    """Drop an entry and close the gap in the positions: a chain, a root or a checkpoint still tells."""
    record = frame_and_line(20)
    del record.rows[which]
    record.rows[which:] = [row._replace(position=row.position - 1) for row in record.rows[which:]]
    assert record.found()


def test_an_entry_taken_from_a_chain_is_noticed_at_the_seal():
    """Take the last entry from a frame's chain, mend the kept head too: the sealed root of all subjects tells."""
    record = frame_and_line(10, sealed_every=10)
    record.rows[9] = record.rows[9]._replace(links=())
    record.heads[FRAME] = record.heads[FRAME].__class__(*record.rows[8].links[0][1:])
    assert record.names() == [("seal subjects", 11)]


def test_a_kept_head_that_the_entries_do_not_lead_to_is_named():
    """The head the writer goes on from must be the last one stored; the subject is named with both."""
    record = frame_and_line(5, sealed_every=10)
    record.rows[4] = record.rows[4]._replace(links=())
    (found,) = record.found()
    assert found.name == "chain end"
    assert str(found).startswith("gas line L-1: its entries end at number 2, head ")
    assert "but the writer goes on from number 3, head " in str(found)


def test_a_kept_head_without_entries_is_named():
    """A subject known to the writer only, or to the entries only, is a discrepancy as well."""
    record = frame_and_line(3, sealed_every=10)
    del record.heads[LINE]
    assert str(record.found()[0]).endswith("but the writer goes on from nothing")
    record.rows.clear()
    assert [str(found).split(":")[1][:29] for found in record.found()] == [" its entries end at nothing, "]


def test_entries_rewritten_whole_are_noticed_at_the_first_checkpoint_only_once():
    """Rewrite an old entry with leaf and heads, but without the key: the span is told once, the rest counted."""
    record, rewritten = frame_and_line(20), SealedRecord()
    for row in record.rows:
        rewritten.add(b"forged" if row.position == 8 else row.line, *(link.subject for link in row.links))
    rewritten.notes = record.notes
    roots = [str(found) for found in rewritten.found() if found.name == "checkpoint root"]
    assert roots == [
        "entries at positions 7 to 12 give another root than their checkpoint",
        "checkpoint root: the same at 2 later checkpoints",
    ]


def test_a_checkpoint_that_was_altered_or_signed_by_another_is_refused():
    """An altered note, and one by a key nobody named, are refused by number; their seals then lack a checkpoint."""
    record = frame_and_line(20)
    record.notes[1] = record.notes[1].replace(b"\n12\n", b"\n13\n")
    record.notes[2] = record.notes[2].replace(SIGNER.key.name.encode(), b"shops.example/record")
    found = record.found()
    assert [str(one).split(":")[0] for one in found if one.name == "checkpoint refused"] == [
        "checkpoint number 2",
        "checkpoint number 3",
    ]
    assert ("checkpoint missing", 12) in record.names()


def test_missing_checkpoints_are_noticed():
    """Take all checkpoints away: the first seal without one is named, the three others are counted."""
    record = frame_and_line(20)
    record.notes.clear()
    said = [str(found) for found in record.found() if found.name == "checkpoint missing"]
    assert said == [
        "entry at position 6, id id-6: is a seal, but its checkpoint is missing",
        "checkpoint missing: the same at 3 later checkpoints",
    ]


def test_a_missing_checkpoint_in_the_middle_is_noticed_twice():
    """One checkpoint taken away: its own seal lacks it, and the next seal does not follow on the one before."""
    record = frame_and_line(20)
    del record.notes[1]
    assert record.names() == [("checkpoint missing", 12), ("seal previous", 18)]
    assert "another checkpoint before it than the one of size 6, which is the last one kept" in str(record.found()[1])


def test_a_checkpoint_without_a_seal_is_noticed():
    """Where a checkpoint ends, the last entry must be a seal."""
    record = frame_and_line(5)
    record.rows[5] = record.rows[5]._replace(line=canonical_line({"kind": "note"}))
    assert ("seal missing", 6) in record.names()


def test_a_line_that_only_looks_like_a_seal_is_an_entry():
    """A device may send a seal's very bytes: without the chain of seals it is an entry like any other."""
    record = frame_and_line(5)
    record.add(record.rows[5].line, FRAME)
    assert record.found() == []


def test_after_a_gap_the_roots_are_not_guessed():
    """With a position missing, the checkpoints behind it are said to be not comparable, not false."""
    record = frame_and_line(20)
    del record.rows[7]
    found = {one.name: str(one) for one in record.found()}
    assert "checkpoint root" not in found
    assert found["checkpoint not comparable"] == (
        "position 8 breaks the order, so 3 checkpoints cannot be compared, the first of them of size 12"
    )


def test_two_checkpoints_of_one_size_are_two_histories():
    """Whoever holds the key and signs another root for the same size is found out by the two notes alone."""
    record, forged = frame_and_line(5), SealedRecord()
    for number in range(5):
        forged.add(b"%d" % number)
    forged.seal()
    record.notes += forged.notes
    assert ("two histories", 6) in record.names()


def test_a_checkpoint_of_another_record_is_refused():
    """A checkpoint signed with the same key over another record is not held against this one."""
    record, other = frame_and_line(5), Checkpoint("shops.example/record", 4, bytes(32))
    (found,) = record.found(outside_notes=[sign_checkpoint(other, SIGNER)])
    assert found.sentence == (
        "checkpoint held outside number 1: origin: found shops.example/record; "
        "expected a checkpoint of works.example/record"
    )


@pytest.mark.parametrize("number", [0, 1, 3, 10**9, -1])
def test_a_false_running_number_is_named(number):
    """Any number but the right one is named with the one expected."""
    record = frame_and_line(3, sealed_every=10)
    link = record.rows[2].links[0]
    record.rows[2] = record.rows[2]._replace(links=(StoredLink(FRAME, number, link.head), record.rows[2].links[1]))
    assert f"is number {number} of frame F-1, expected 2" in str(record.found()[0])
