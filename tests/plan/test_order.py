"""Whether a design can be built at all."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.facts.design import Cover
from server.plan.order import OrderLoop, check_order, one_order
from server.plan.step_links import links, loop_in
from tests.plan.cart import cart

DESIGN = cart()
SEAMS = [joint.id for joint in DESIGN.joints if joint.structural]


def test_a_good_design_passes() -> None:
    """Nothing is said about an order without a ring."""
    check_order(DESIGN)


def test_a_ring_is_refused_with_a_line_for_each_reason() -> None:
    """A welder reads the ring as sentences, one below the other."""
    ring = DESIGN.model_copy(update={"covers": (*DESIGN.covers, Cover(seam="A4", quarter="q3", by="A1"))})
    with pytest.raises(OrderLoop) as refused:
        check_order(ring)
    lines = str(refused.value).splitlines()
    assert lines[0] == "These steps wait for each other:"
    assert len(lines) == 1 + len(refused.value.links)
    assert any("the cross tube would hide 3 o'clock of A4" in line for line in lines)


@given(st.lists(st.tuples(st.sampled_from(SEAMS), st.sampled_from(SEAMS)), max_size=5))
def test_either_an_order_breaks_no_link_or_a_ring_is_shown(pairs: list[tuple[str, str]]) -> None:
    """Whatever the covers: an order that keeps every link, or a closed ring of real links."""
    covers = tuple(Cover(seam=seam, quarter="q12", by=by) for seam, by in pairs)
    design = DESIGN.model_copy(update={"covers": covers})
    ring = loop_in(design)
    if ring:
        assert set(ring) <= set(links(design))
        assert ring[-1].first == ring[0].step
        with pytest.raises(OrderLoop):
            one_order(design)
    else:
        place = {step: at for at, step in enumerate(one_order(design))}
        assert all(place[link.first] < place[link.step] for link in links(design))
