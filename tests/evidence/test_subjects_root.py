"""The subjects' tree: what is hashed anew piece by piece equals what is hashed from the start."""

from unittest.mock import Mock

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.evidence import subjects_root
from server.evidence.chain_subject import CHAIN_KINDS, ChainSubject
from server.evidence.chains import ChainHead, chain_of, extended
from server.evidence.leaves import node_hash
from server.evidence.proofs import inclusion_holds
from server.evidence.subjects_root import SubjectsTree, subject_leaf
from tests.evidence.tree_by_definition import defined_root

SUBJECTS = st.builds(ChainSubject, st.sampled_from(sorted(CHAIN_KINDS)), st.sampled_from("abcdefg"))
CHAINS = st.builds(ChainHead, st.integers(1, 99), st.binary(min_size=32, max_size=32))
CHANGES = st.lists(st.lists(st.tuples(SUBJECTS, CHAINS), max_size=6), max_size=12)


@given(CHANGES)
def test_the_root_is_the_one_over_all_sorted_leaves(batches):
    """After every batch of new and grown subjects the root equals the definition over the sorted leaves."""
    tree, known = SubjectsTree(), {}
    for batch in batches:
        for subject, chain in batch:
            tree.put(subject, chain)
            known[subject] = chain
        assert tree.root() == defined_root([subject_leaf(*item) for item in sorted(known.items())])
        assert len(tree) == len(known)


@given(st.dictionaries(SUBJECTS, CHAINS, min_size=1))
def test_a_subjects_number_and_head_are_proved(chains):
    """Every subject's number and head can be proved against the root alone, and no other number can."""
    tree = SubjectsTree(chains.items())
    for subject, chain in chains.items():
        index, path = tree.inclusion_path(subject)
        assert inclusion_holds(subject_leaf(subject, chain), index, len(tree), path, tree.root())
        short = subject_leaf(subject, ChainHead(chain.number - 1, chain.head))
        assert not inclusion_holds(short, index, len(tree), path, tree.root())


def test_an_omitted_entry_does_not_fit_the_sealed_head():
    """What inclusion proofs miss is caught here: the entries handed over do not lead to the sealed number and head."""
    frame, leaves = ChainSubject("frame", "F-1"), [bytes([number]) * 32 for number in range(9)]
    tree = SubjectsTree([(frame, chain_of(frame, leaves))])
    index, path = tree.inclusion_path(frame)
    for handed_over in (leaves[:4] + leaves[5:], leaves[:-1], [*leaves[1::-1], *leaves[2:]]):
        leaf = subject_leaf(frame, chain_of(frame, handed_over))
        assert not inclusion_holds(leaf, index, len(tree), path, tree.root())


def test_one_grown_subject_costs_as_many_hashes_as_the_tree_is_high(monkeypatch):
    """Of a thousand subjects one grew: 10 nodes are hashed again, not a thousand."""
    subjects = [ChainSubject("frame", f"F-{number:04}") for number in range(1000)]
    tree = SubjectsTree((subject, chain_of(subject)) for subject in subjects)
    tree.root()
    counted = Mock(side_effect=node_hash)
    monkeypatch.setattr(subjects_root, "node_hash", counted)
    tree.put(subjects[500], extended(chain_of(subjects[500]), bytes(32)))
    tree.root()
    assert counted.call_count == 10


def test_a_subject_without_entries_cannot_be_proved():
    """Asking for a subject that the record does not know is refused by its name."""
    frame = ChainSubject("frame", "F-1")
    tree = SubjectsTree([(frame, extended(chain_of(frame), bytes(32)))])
    with pytest.raises(ValueError, match="sleeve S-1: has no entry in the record"):
        tree.inclusion_path(ChainSubject("sleeve", "S-1"))
