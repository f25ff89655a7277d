"""Checkpoints: three lines, signed; two of them tell one history or they do not."""

import pytest

from server.evidence.checkpoints import Checkpoint, open_checkpoint, sign_checkpoint
from server.evidence.note_keys import NoteSigner
from server.evidence.notes import sign_note
from server.evidence.refusals import NoteRefused
from server.evidence.trees import Tree
from tests.evidence.tree_by_definition import numbered_leaves

SIGNER = NoteSigner("works.example/record", bytes(32))
TREE = Tree(numbered_leaves(20))


def at(size, tree=TREE):
    return Checkpoint("works.example/record", size, tree.root(size))


def test_a_checkpoint_is_opened_as_it_was_signed():
    """Record, size and root come back from the note."""
    assert open_checkpoint(sign_checkpoint(at(7), SIGNER), [SIGNER.key]) == at(7)


def test_exactly_three_lines_are_signed():
    """The text is the record's name, the size and the root in base64, and nothing else."""
    assert Checkpoint("a", 20, bytes(32)).text() == "a\n20\nAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA=\n"


def test_a_later_checkpoint_continues_an_earlier_one():
    """With the tree's proof, one history is shown; also between a checkpoint and itself."""
    assert at(20).continues(at(7), TREE.consistency_path(7))
    assert at(7).continues(at(7), ())


def test_a_rewritten_history_does_not_continue():
    """After one old entry is replaced, no proof the rewriter has joins the new checkpoint to the old."""
    rewritten = Tree([bytes(32), *numbered_leaves(20)[1:]])
    assert not at(20, rewritten).continues(at(7), rewritten.consistency_path(7))
    assert not at(20, rewritten).continues(at(7), TREE.consistency_path(7))


def test_another_record_does_not_continue():
    """The same root under another record's name is another history, and time does not run backwards."""
    other = at(20)._replace(origin="works.example/other")
    assert not other.continues(at(7), TREE.consistency_path(7))
    assert not at(7).continues(at(20), TREE.consistency_path(7))


def test_the_digest_changes_with_every_part():
    """The digest that the next seal names depends on record, size and root."""
    others = [at(20)._replace(origin="b"), at(20)._replace(size=21), at(20)._replace(root=bytes(32))]
    assert len({at(20).digest(), *(other.digest() for other in others)}) == 4


@pytest.mark.parametrize(
    ("text", "path"),
    [
        ("a\n7\n", "checkpoint"),
        ("\n7\nAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA=\n", "checkpoint"),
        ("a\n7\nAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA=\nmore\n", "checkpoint"),
        ("a\n07\nAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA=\n", "size"),
        ("a\n0\nAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA=\n", "size"),
        ("a\n-7\nAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA=\n", "size"),
        ("a\n\u0667\nAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA=\n", "size"),
        ("a\n7\nAAAA\n", "root"),
        ("a\n7\nAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAB=\n", "root"),
        ("a\n7\n!\n", "root"),
    ],
)
def test_another_signed_text_is_no_checkpoint(text, path):
    """A note that is well signed but is not of the three lines is refused by the line that is wrong."""
    with pytest.raises(NoteRefused) as refused:
        open_checkpoint(sign_note(text, SIGNER), [SIGNER.key])
    assert refused.value.path == path


@pytest.mark.parametrize(
    "checkpoint", [at(7)._replace(origin="two\nlines"), at(7)._replace(size=0), at(7)._replace(root=b"")]
)
def test_what_could_not_be_opened_is_not_signed(checkpoint):
    """A checkpoint that its reader would refuse is refused before it is signed."""
    with pytest.raises(NoteRefused):
        sign_checkpoint(checkpoint, SIGNER)
