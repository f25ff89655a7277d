"""A checkpoint: the seal is the last line under it, it fixes every chain, names the one before, and is truly signed."""

from pathlib import Path

from server.evidence.checkpoints import open_checkpoint
from server.evidence.seals import SEALS, read_seal
from server.evidence.subjects_root import SubjectsTree
from server.evidence.trees import Tree
from server.record.book_of_lines import Record
from server.record.signing_key import read_signer
from server.record.standing import read_heads
from tests.record.fixtures import append
from tests.record.sample_lines import new_entry


def test_a_checkpoint_is_over_all_lines_and_signed(either: Record, tmp_path: Path):
    """Its root is the tree's over every leaf, the seal's among them, and the record's key has signed it."""
    append(either, *(new_entry(number) for number in range(5)))
    signed = either.checkpoint().result()
    signer = read_signer(tmp_path)
    assert signer is not None
    with either.reads() as reads:
        leaves = [line.leaf for line in reads.lines_between(1, 99)]
    assert open_checkpoint(signed.note, [signer.key]) == signed.checkpoint
    assert signed.checkpoint.root == Tree(leaves).root()
    assert signed.checkpoint.size == len(leaves) == 6
    assert signed.checkpoint.origin == signer.key.name


def test_the_seal_fixes_the_chains_and_the_checkpoint_before(either: Record):
    """Each seal holds the root over all chains before it, the seals' own too, and the last checkpoint's digest."""
    append(either, new_entry(1))
    first = either.checkpoint().result()
    append(either, new_entry(2, frame="F-2"))
    second = either.checkpoint().result()
    with either.reads() as reads:
        lines = {line.position: line for line in reads.lines_between(1, 99)}
        chains = {subject: chain for subject, chain in read_heads(reads._connection).items() if subject != SEALS}
        chains[SEALS] = reads.links_between(first.checkpoint.size, first.checkpoint.size)[first.checkpoint.size][0][1]
    seals = [read_seal(lines[size].envelope) for size in (first.checkpoint.size, second.checkpoint.size)]
    assert [seal.previous for seal in seals] == [None, first.checkpoint.digest()]
    assert [seal.subjects for seal in seals] == [4, 6]
    assert seals[1].subjects_root == SubjectsTree(chains.items()).root()
    assert seals[1].sealed_ms == second.made_ms
