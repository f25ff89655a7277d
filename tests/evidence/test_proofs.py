"""Proofs: append-only holds, and a single changed bit does not."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.evidence.leaves import node_hash
from server.evidence.proofs import consistency_holds, inclusion_holds
from server.evidence.trees import Tree
from tests.evidence.tree_by_definition import numbered_leaves

SIZES = st.integers(1, 300)


def flipped(value, bit):
    return (int.from_bytes(value) ^ (1 << (bit % (8 * len(value))))).to_bytes(len(value))


@given(SIZES, SIZES)
def test_a_record_that_only_grew_can_be_shown_to(first, grown):
    """Whatever is appended, the older root and the newer one are consistent."""
    tree = Tree(numbered_leaves(first + grown))
    path = tree.consistency_path(first)
    assert consistency_holds(first, first + grown, path, tree.root(first), tree.root())


@given(SIZES, SIZES, st.integers(min_value=0), st.integers(min_value=0))
def test_a_record_that_was_changed_cannot(first, grown, which, bit):
    """Once any leaf of the older tree is altered, no proof the rewriter can make reaches both roots."""
    leaves = numbered_leaves(first + grown)
    older = Tree(leaves).root(first)
    leaves[which % first] = flipped(leaves[which % first], bit)
    rewritten = Tree(leaves)
    assert not consistency_holds(first, first + grown, rewritten.consistency_path(first), older, rewritten.root())


@given(SIZES, st.data())
def test_any_changed_bit_of_an_inclusion_proof_is_noticed(size, data):
    """Leaf, root and every step of the path: flip one bit of any, and the proof does not hold."""
    tree, index = Tree(numbered_leaves(size)), data.draw(st.integers(0, size - 1))
    parts = [numbered_leaves(size)[index], tree.root(), *tree.inclusion_path(index)]
    which = data.draw(st.integers(0, len(parts) - 1))
    parts[which] = flipped(parts[which], data.draw(st.integers(0, 255)))
    leaf, root, *path = parts
    assert not inclusion_holds(leaf, index, size, path, root)


@given(SIZES, st.data())
def test_a_leaf_is_proved_at_its_own_place_only(size, data):
    """The proof of one index does not serve for another."""
    tree = Tree(numbered_leaves(size))
    index, other = (data.draw(st.integers(0, size - 1)) for _ in range(2))
    leaf = numbered_leaves(size)[index]
    assert inclusion_holds(leaf, other, size, tree.inclusion_path(index), tree.root()) is (index == other)


@pytest.mark.parametrize("path", [[b""], [bytes(31)], [bytes(33)]])
def test_a_step_that_is_no_hash_is_refused(path):
    """Steps of another length than 32 bytes cannot be slipped in."""
    assert not inclusion_holds(bytes(32), 0, 2, path, bytes(32))
    assert not consistency_holds(1, 2, path, bytes(32), bytes(32))


def test_a_step_too_many_is_refused_even_if_it_leads_to_the_root():
    """A path longer than the tree is high proves nothing, though whoever made up the root made it fit."""
    tree, extra = Tree(numbered_leaves(4)), bytes(32)
    above = [node_hash(extra, tree.root(size)) for size in (1, 3, 4)]
    assert not inclusion_holds(numbered_leaves(1)[0], 0, 1, [extra], above[0])
    assert not consistency_holds(3, 4, [*tree.consistency_path(3), extra], above[1], above[2])


def test_nothing_is_proved_from_an_empty_record():
    """A checkpoint over nothing is no witness: consistency from size 0 is refused, as the reference data refuse it."""
    tree = Tree(numbered_leaves(2))
    assert not consistency_holds(0, 2, (), Tree().root(), tree.root())


def test_inclusion_alone_misses_what_was_left_out():
    """Control: leave out one entry and every entry that remains is still proved; that is why chains are kept."""
    leaves = numbered_leaves(9)
    tree, handed_over = Tree(leaves), [index for index in range(9) if index != 4]
    proved = [inclusion_holds(leaves[at], at, 9, tree.inclusion_path(at), tree.root()) for at in handed_over]
    assert all(proved)
