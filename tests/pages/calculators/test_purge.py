"""The purge calculator on a design of its own: slowest named, holes changed, what no gas reaches named by its title."""

import pytest

from server.pages.calculators.purge import PurgePage, PurgeResult, purge_page
from tests.plan.cart import cart

DESIGNS = (cart(),)
TWO = {"design": "CART", "size": "S", "setup": "two", "drawn": "CART/S/two"}


def page(**asked: str) -> PurgePage:
    return purge_page(DESIGNS, asked, {"CART": ("30", "From LD rev A, in force today.")})


def answer(**asked: str) -> PurgeResult:
    found = page(**asked)
    assert found.result is not None, [str(problem) for problem in found.form.problems]
    return found.result


def test_the_slowest_member_comes_first_and_has_the_heavy_line() -> None:
    """Members are listed slowest first; the first one's wait is the longest, and its curve is the marked one."""
    found = answer(**TWO)
    waits = [each.clear_s for each in found.members if each.clear_s is not None]
    assert len(waits) == 5
    assert waits == sorted(waits, reverse=True)
    assert [each.title for each in found.members if each.look == "marked"] == [found.slowest.title]
    assert found.picture.curves is not None
    assert [curve.name for curve in found.picture.curves.curves if curve.look == "marked"] == [found.slowest.title]


def test_a_hole_changed_changes_the_answer() -> None:
    """A wider vent on the slowest member, in whatever unit, shortens its wait; a wider one elsewhere robs it of gas."""
    as_drawn = answer(**TWO).slowest
    own, same, elsewhere = (answer(**TWO, **{hole: width}).slowest for hole, width in (
        ("hole_5", "8"), ("hole_5", "0.314960630 in"), ("hole_6", "8"),
    ))  # fmt: skip
    assert {each.title for each in (as_drawn, own, elsewhere)} == {"right rail"}
    assert (own.clear_s or 0.0) < (as_drawn.clear_s or 0.0) < (elsewhere.clear_s or 0.0)
    assert same.clear_s == pytest.approx(own.clear_s, rel=1e-6)


def test_more_flow_is_a_shorter_wait_and_more_pressure() -> None:
    """Twice the flow is half the wait for a member the gas sweeps, and presses harder."""
    slow, fast = answer(**TWO, flow_l_per_min="6"), answer(**TWO, flow_l_per_min="12")
    assert (fast.slowest.clear_s or 0.0) < 0.6 * (slow.slowest.clear_s or 0.0)
    assert fast.pressure_pa == pytest.approx(4.0 * slow.pressure_pa, rel=0.01)
    assert (slow.warning, answer(**TWO, flow_l_per_min="40").warning is None) == (None, False)


def test_a_member_no_gas_reaches_is_named() -> None:
    """With both its holes closed the brace is named by its title, marked in the picture, and nothing is worked out."""
    found = page(**TWO, hole_3="0", hole_4="")
    (problem,) = found.form.problems
    assert (problem.words, problem.found) == ("No gas reaches", "brace")
    assert found.result is None
    assert found.frame is not None
    assert [each.line.member for each in found.frame.lines if each.look == "shut"] == ["BR"]


def test_one_hole_missing_makes_a_dead_end() -> None:
    """A brace with one of its two holes is no longer swept: a dead end, the slowest by far."""
    assert not any(each.dead_end for each in answer(**TWO).members)
    found = answer(**TWO, hole_4="0")
    assert [each.title for each in found.members if each.dead_end] == ["brace"]
    assert found.slowest.title == "brace"
    assert (found.slowest.clear_s or 0.0) > 10.0 * (answer(**TWO).slowest.clear_s or 0.0)


def test_without_any_vent_it_is_refused() -> None:
    """Gas that flows in and cannot leave is refused, naming where it flows in."""
    (problem,) = page(**TWO, hole_5="0", hole_6="0").form.problems
    assert (problem.words, problem.found) == ("No vent from", "left rail")


def test_a_leak_sets_a_floor_where_it_is() -> None:
    """Air leaking into the post keeps it above what its gas brings along, and it is then never clear."""
    found = answer(**TWO, leak_ml_per_min="3", leak_at="P")
    floors = {each.name: each.floor_ppm for each in found.members}
    assert floors["P"] > 30.0 > floors["RL"] == pytest.approx(2.0)
    assert (found.slowest.name, found.slowest.clear_s) == ("P", None)


def test_a_further_hole_can_be_added() -> None:
    """One more hole from the brace to the air opens a way for it; a hole from a member into itself is refused."""
    closed = {**TWO, "hole_4": "0"}
    assert (answer(**closed, added_from="BR", added_mm="3").slowest.clear_s or 0.0) < 600.0
    assert page(**TWO, added_from="BR", added_into="BR").form.problems[0].field == "added_mm"


def test_holes_of_another_setup_are_not_taken_over() -> None:
    """A form drawn for one set-up and sent for another starts from the other's own holes."""
    asked = {**TWO, "setup": "one", "hole_0": "0", "hole_1": "0"}
    filled = page(**asked).form.filled
    assert [each.number for name, each in filled.items() if name.startswith("hole_")] == [8.0, 8.0, 5.0]


def test_a_reading_overrides_the_forecast() -> None:
    """A reading is shown as what counts; without one nothing is said of a reading."""
    found = answer(**TWO, reading_ppm="35").reading
    assert found is not None
    assert (found.oxygen_ppm, found.provenance) == (35.0, "read")
    assert answer(**TWO).reading is None


def test_the_oxygen_wanted_starts_from_the_procedure() -> None:
    """The figure of the procedure in force stands there at first, with where it comes from, and may be changed."""
    field = page(**TWO).form.at("target_ppm")
    assert (field.written, field.field.hint) == ("30", "From LD rev A, in force today.")
    assert answer(**TWO, target_ppm="10").target_ppm == 10.0


def test_without_a_design_one_volume_is_worked_out() -> None:
    """With no design released a volume typed in is followed: 2 L at 10 L/min reach 20 ppm after 9.26 changes."""
    found = purge_page((), {"oxygen_ppm": "0", "volume_l": "2", "target_ppm": "20"}, {})
    assert not found.designs_known
    assert found.result is not None
    assert found.result.slowest.clear_s == pytest.approx(9.256 * 12.0, rel=1e-3)
    assert found.result.picture.lines == ()


@pytest.mark.parametrize(
    ("asked", "field"),
    [
        ({"flow_l_per_min": "0"}, "flow_l_per_min"),
        ({"oxygen_ppm": "-1"}, "oxygen_ppm"),
        ({"leak_ml_per_min": "-1"}, "leak_ml_per_min"),
        ({"hole_0": "-3"}, "hole_0"),
        ({"target_ppm": "-20"}, "target_ppm"),
        ({"hole_2": "7 L"}, "hole_2"),
    ],
)
def test_what_makes_no_sense_is_named_at_its_field(asked: dict[str, str], field: str) -> None:
    """No flow, gas with less than no oxygen, a hole below nothing: refused at the field."""
    found = page(**TWO, **asked)
    assert found.result is None
    assert [problem.field for problem in found.form.problems] == [field]
