"""What comes before what, and why."""

from server.plan.step_links import links, loop_in
from tests.plan.cart import cart

LINKS = links(cart())


def test_a_cover_makes_its_tack_wait_for_the_release() -> None:
    """The brace may not be tacked before the seam it hides is released, and the reason says which quarter."""
    (link,) = [link for link in LINKS if link.of == "covers"]
    assert (link.step, link.first) == ("A4:tacked", "A1:released")
    assert link.reason == "the brace would hide 9 o'clock of A1"
    assert str(link) == "A4:tacked waits for A1:released, because the brace would hide 9 o'clock of A1"


def test_each_seam_is_tacked_welded_finished_released_in_that_order() -> None:
    """Along a seam every state waits for the one before."""
    along = [(link.step, link.first) for link in LINKS if link.of == "joints" and link.step.startswith("A2")]
    assert along == [("A2:welded", "A2:tacked"), ("A2:finished", "A2:welded"), ("A2:released", "A2:finished")]


def test_a_need_with_two_firsts_is_two_links() -> None:
    """Each thing needed is a link with the reason of the need."""
    needed = [(link.step, link.first) for link in LINKS if link.of == "needs"]
    assert needed[:2] == [("C1", "A1:tacked"), ("C1", "A2:tacked")]


def test_a_good_design_has_no_loop_and_a_ring_is_found_whole() -> None:
    """Covers that hide each other's seam are a ring: each link waits for the next, back to the first."""
    assert loop_in(cart()) == []
    design = cart()
    ring = design.model_copy(
        update={"covers": (*design.covers, design.covers[0].model_copy(update={"seam": "A4", "by": "A1"}))}
    )
    loop = loop_in(ring)
    assert [link.first for link in loop] == [link.step for link in (*loop[1:], loop[0])]
    assert {link.reason for link in loop if link.of == "covers"} == {
        "the brace would hide 9 o'clock of A1",
        "the cross tube would hide 9 o'clock of A4",
    }
