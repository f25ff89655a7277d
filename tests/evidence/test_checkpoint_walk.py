"""Checkpoints held outside: what the key itself cannot undo."""

from server.evidence.checkpoints import Checkpoint, sign_checkpoint
from tests.evidence.sealed_record import ORIGIN, SIGNER, SealedRecord, frame_and_line


def rewritten_with_the_key(record):
    """All entries again with one forged, every leaf, head, seal and checkpoint made anew by whoever holds the key."""
    forged = SealedRecord()
    for row in record.rows:
        if any(link.subject.id == "seals" for link in row.links):
            forged.seal()
        else:
            line = b"forged" if row.position == 8 else row.line
            forged.add(line, *(link.subject for link in row.links))
    return forged


def test_a_rewriter_with_the_key_is_not_found_inside():
    """Control: a record rewritten and signed anew with the true key agrees with itself in everything."""
    assert rewritten_with_the_key(frame_and_line(20)).found() == []


def test_one_older_checkpoint_held_outside_finds_the_rewriter():
    """Any one checkpoint that was handed out after the forged entry tells, and says behind which position to look."""
    record = frame_and_line(20)
    forged = rewritten_with_the_key(record)
    for handed_out in record.notes[1:]:
        (found,) = forged.found(outside_notes=[handed_out])
        assert found.name == "two histories"
        assert found.sentence.endswith("held outside: the record was rewritten after it was handed out")


def test_a_checkpoint_from_before_the_forgery_agrees():
    """A checkpoint over the untouched beginning is no false alarm."""
    record = frame_and_line(20)
    assert rewritten_with_the_key(record).found(outside_notes=record.notes[:1]) == []


def test_a_checkpoint_held_outside_of_more_than_there_is():
    """Entries struck off the end, checkpoints and heads with them, are told by a checkpoint somebody holds."""
    record, short = frame_and_line(20), frame_and_line(10)
    assert short.names() == []
    assert short.names(outside_notes=record.notes[3:]) == [("checkpoint beyond", 13)]


def test_a_checkpoint_held_outside_needs_no_seal():
    """A size at which the record signed nothing is compared by its root alone."""
    record = frame_and_line(10, sealed_every=10)
    outside = sign_checkpoint(Checkpoint(ORIGIN, 4, bytes(32)), SIGNER)
    assert record.names(outside_notes=[outside]) == [("two histories", 4)]


def test_a_checkpoint_refused_outside_is_told_apart():
    """A note from outside that does not verify is named as such."""
    record = frame_and_line(5)
    (found,) = record.found(outside_notes=[b"scribble"])
    assert found.sentence.startswith("checkpoint held outside number 1: note: found scribble")
