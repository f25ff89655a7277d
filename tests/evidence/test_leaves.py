"""Leaves and nodes: the two hashes cannot stand for each other."""

from hashlib import sha256

from server.evidence.leaves import leaf_hash, node_hash


def test_a_leaf_cannot_pass_for_a_node():
    """Recording the two hashes that lie under a node does not give the node's hash."""
    left, right = leaf_hash(b"a"), leaf_hash(b"b")
    assert leaf_hash(left + right) != node_hash(left, right)


def test_without_the_prefixes_it_could():
    """Control: with bare SHA-256 in both places the forged leaf and the node are the same."""
    left, right = sha256(b"a").digest(), sha256(b"b").digest()
    forged_leaf, node = sha256(left + right), sha256(b"".join((left, right)))
    assert forged_leaf.digest() == node.digest()


def test_left_and_right_are_not_exchangeable():
    """Swapping two neighbours changes what lies above them."""
    assert node_hash(leaf_hash(b"a"), leaf_hash(b"b")) != node_hash(leaf_hash(b"b"), leaf_hash(b"a"))
