"""Narrowings, and the curve a meter was found on."""

import pytest

from server.facts.deciding import Narrowing
from server.occasions.narrowed import Cuts, Rested, cleared_by, true_from_curve

FOUND = ((20.0, 4.0), (50.0, 19.0), (100.0, 44.0))
SIGNED = ({"person": "Q", "role": "quality lead", "at": "2026-01-01T00:00:00Z", "meaning": "narrowed",
           "shown_sha256": "0"},)  # fmt: skip


def narrowing(**told) -> Narrowing:
    plain = {"id": "N", "check": "bad", "by": "cross-check", "fact": "cross", "reason": "agreed", "signatures": SIGNED}
    return Narrowing.model_validate(plain | told)


@pytest.mark.parametrize(
    ("shown", "true"), [(4, 20), (19, 50), (44, 100), (11.5, 35), (0, 12), (1, 14), (54, 120)]
)
def test_the_curve_runs_straight_between_and_beyond_the_points_found(shown: float, true: float):
    """A meter found at 20, 50 and 100 ppm as 4, 19 and 44 read half of the truth less six, everywhere."""
    assert true_from_curve(FOUND, shown) == pytest.approx(true)


def test_one_point_found_shifts_every_reading_by_as_much():
    """With a single point there is no slope to tell, so the difference there is taken for all."""
    assert true_from_curve(((20.0, 14.0),), 30.0) == pytest.approx(36.0)


def test_a_narrowing_without_a_fact_or_undone_by_another_cuts_nothing():
    """By `none`, without a fact, or undone: none of these lets anything out."""
    undone = [narrowing(id="C"), narrowing(id="D", undoes="C", by="none")]
    known = [narrowing(id="A", by="none"), narrowing(id="B", fact=None), *undone]
    assert Cuts(known, lambda fact: 50).of("bad") == []
    assert [cut.id for cut in Cuts([narrowing(id="C")], lambda fact: 50).of("bad")] == ["C"]


def test_a_narrowing_by_a_fact_begins_where_the_fact_happened():
    """A cross-check in tolerance at 50 lets out what was before it; what straddles it stays in."""
    cut = Cuts([narrowing()], lambda fact: 50).of("bad")[0]
    assert cleared_by([cut], Rested("X", (40, 49), False)) is cut
    assert cleared_by([cut], Rested("X", (40, 51), False)) is None


def test_a_narrowing_that_names_what_stays_lets_all_else_out():
    """Whatever is not named is let out, whenever it was."""
    cut = Cuts([narrowing(by="inside colour", keeps=("X/A#1",))], lambda fact: None).of("bad")[0]
    assert cleared_by([cut], Rested("X/A#1", (1,), False)) is None
    assert cleared_by([cut], Rested("X/B#1", (1,), False)) is cut


def test_the_curve_lets_out_what_it_does_not_put_over_the_limit():
    """A joint whose readings stay inside when put right is let out; one that goes over stays in."""
    cut = Cuts([narrowing(by="as-found curve")], lambda fact: None).of("bad")[0]
    assert cleared_by([cut], Rested("X", (1,), over_by_curve=False)) is cut
    assert cleared_by([cut], Rested("X", (1,), over_by_curve=True)) is None
