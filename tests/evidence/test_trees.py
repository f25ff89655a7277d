"""Whole trees: any earlier root, and proofs that hold."""

from itertools import combinations_with_replacement

import pytest

from server.evidence.proofs import consistency_holds, inclusion_holds
from server.evidence.trees import Tree
from tests.evidence.tree_by_definition import defined_root, numbered_leaves

LEAVES = numbered_leaves(70)
TREE = Tree(LEAVES)


def test_every_earlier_root_can_be_had():
    """The root at each size up to the last equals the definition over the first leaves."""
    assert [TREE.root(size) for size in range(71)] == [defined_root(LEAVES[:size]) for size in range(71)]
    assert TREE.root() == TREE.root(70)


def test_every_leaf_is_proved_in_every_tree():
    """Each of 70 leaves is proved in every tree that holds it, with a path no longer than the tree is high."""
    for index, last in combinations_with_replacement(range(70), 2):
        path = TREE.inclusion_path(index, last + 1)
        assert len(path) <= last.bit_length()
        assert inclusion_holds(LEAVES[index], index, last + 1, path, TREE.root(last + 1))


def test_every_tree_is_proved_to_begin_with_every_smaller_one():
    """For each pair of sizes up to 70 the proof holds that the larger tree begins with the smaller."""
    for older, newer in combinations_with_replacement(range(1, 71), 2):
        path = TREE.consistency_path(older, newer)
        assert consistency_holds(older, newer, path, TREE.root(older), TREE.root(newer))


def test_proofs_are_for_the_whole_tree_unless_said_otherwise():
    """Without a size the proofs are those of the tree as it is."""
    assert TREE.inclusion_path(5) == TREE.inclusion_path(5, 70)
    assert TREE.consistency_path(5) == TREE.consistency_path(5, 70)


@pytest.mark.parametrize(
    ("ask", "said"),
    [
        (lambda: TREE.root(71), "a tree of 71 leaves; expected 0 to 70"),
        (lambda: TREE.inclusion_path(70), "leaf 70; expected 0 to 69"),
        (lambda: TREE.inclusion_path(-1), "leaf -1; expected 0 to 69"),
        (lambda: TREE.consistency_path(0), "an older size of 0; expected 1 to 70"),
        (lambda: TREE.consistency_path(9, 8), "an older size of 9; expected 1 to 8"),
        (lambda: Tree([b"short"]), "a leaf hash of 5 bytes; expected 32"),
    ],
)
def test_what_cannot_be_proved_is_refused(ask, said):
    """A size, leaf or hash outside the tree is refused with what would be inside."""
    with pytest.raises(ValueError, match=said):
        ask()
