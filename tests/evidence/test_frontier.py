"""The frontier: the root as RFC 9162 defines it, at every size, and going on after a stop."""

import pytest
from hypothesis import given

from server.evidence.frontier import Frontier
from tests.evidence.tree_by_definition import LEAVES, defined_root, numbered_leaves


def frontier_of(leaves):
    frontier = Frontier()
    for leaf in leaves:
        frontier.append(leaf)
    return frontier


def test_the_root_is_the_defined_one_at_every_size():
    """From no leaf to 130 the root equals the recursive definition."""
    leaves, frontier = numbered_leaves(130), Frontier()
    for size in range(131):
        assert frontier.root() == defined_root(leaves[:size])
        if size < 130:
            frontier.append(leaves[size])


@given(LEAVES, LEAVES)
def test_it_goes_on_from_what_was_kept(before, after):
    """Size and peaks are all that is needed to go on as if there had been no stop."""
    kept = frontier_of(before)
    resumed = Frontier(kept.size, kept.peaks)
    for leaf in after:
        resumed.append(leaf)
    assert (resumed.size, resumed.root()) == (len(before + after), defined_root(before + after))


def test_it_keeps_few_hashes():
    """A hundred thousand leaves need 6 hashes, one for each bit set in the size."""
    assert len(frontier_of([bytes(32)] * 100_000).peaks) == 6


def test_a_copy_goes_its_own_way():
    """Leaves put on a copy leave the first frontier as it was, so a transaction can be taken back."""
    first = frontier_of(numbered_leaves(3))
    root, second = first.root(), first.copy()
    second.append(bytes(32))
    assert (first.size, first.root()) == (3, root)
    assert second.root() != root


@pytest.mark.parametrize(("size", "peaks"), [(3, 1), (4, 2), (-1, 0), (-1, 1), (0, 1)])
def test_peaks_that_do_not_fit_the_size_are_refused(size, peaks):
    """A frontier that was kept wrongly is refused rather than gone on from."""
    with pytest.raises(ValueError, match="one for each bit set in the size"):
        Frontier(size, [bytes(32)] * peaks)
