"""Chains: order, number and subject are all in the head."""

from hypothesis import given
from hypothesis import strategies as st

from server.evidence.chain_subject import ChainSubject
from server.evidence.chains import chain_of, extended
from tests.evidence.tree_by_definition import numbered_leaves

FRAME = ChainSubject("frame", "F-1")
HASHES = st.lists(st.binary(min_size=32, max_size=32), min_size=2, max_size=20, unique=True)


@given(HASHES)
def test_entry_by_entry_is_the_same_as_anew(leaves):
    """Extending one leaf at a time leads to the head computed from all of them."""
    chain = chain_of(FRAME)
    for leaf in leaves:
        chain = extended(chain, leaf)
    assert chain == chain_of(FRAME, leaves)
    assert chain.number == len(leaves)


@given(HASHES, st.integers(min_value=0))
def test_an_entry_left_out_changes_number_and_head(leaves, which):
    """Leaving out any one entry, the first and the last included, leads to another number and another head."""
    whole, at = chain_of(FRAME, leaves), which % len(leaves)
    short = chain_of(FRAME, leaves[:at] + leaves[at + 1 :])
    assert short.number == whole.number - 1
    assert short.head != whole.head


@given(HASHES)
def test_two_entries_swapped_change_the_head(leaves):
    """The same entries in another order lead to another head at the same number."""
    whole, swapped = chain_of(FRAME, leaves), chain_of(FRAME, [leaves[1], leaves[0], *leaves[2:]])
    assert swapped.number == whole.number
    assert swapped.head != whole.head


def test_one_subject_cannot_stand_for_another():
    """The same entries lead to another head for another kind or another id, also before the first entry."""
    leaves = numbered_leaves(3)
    others = [ChainSubject("frame", "F-2"), ChainSubject("sleeve", "F-1"), ChainSubject("gas line", "F-1")]
    for count in (0, 3):
        assert len({chain_of(subject, leaves[:count]) for subject in (FRAME, *others)}) == 4
