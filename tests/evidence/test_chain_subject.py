"""Chain subjects: the six kinds, their order and how they are said."""

from server.evidence.chain_subject import CHAIN_KINDS, ChainSubject


def test_these_have_chains():
    """A frame, a gas line, an instrument, a sleeve, a welder and a register each have a chain of their own."""
    assert {"frame", "gas line", "instrument", "sleeve", "welder", "register"} == CHAIN_KINDS


def test_they_sort_by_kind_and_id():
    """The order is that of code points, first of the kind, then of the id, so that any language can repeat it."""
    welder, sleeve, late, early = (
        ChainSubject("welder", "a"),
        ChainSubject("sleeve", "z"),
        ChainSubject("frame", "\U0001f602"),
        ChainSubject("frame", "\ufb33"),
    )
    assert sorted([welder, sleeve, late, early]) == [early, late, sleeve, welder]


def test_it_is_said_in_shop_words():
    """A discrepancy names the subject by kind and id."""
    assert str(ChainSubject("gas line", "L-1")) == "gas line L-1"
