"""The hold time calculator: a band, narrowed by one measured hold, and never without what speaks against it."""

import pytest

from server.pages.calculators.hold_time import HoldResult, hold_time_page


def answer(**asked: str) -> HoldResult:
    page = hold_time_page(asked)
    assert page.result is not None, [str(problem) for problem in page.form.problems]
    return page.result


def test_without_a_measurement_the_band_is_wide_and_its_high_end_counts() -> None:
    """The base case is 10 to 24 s; what is said is the next whole second above the high end."""
    found = answer()
    assert found.hold_s.mapped(round) == (10, 16, 24)
    assert found.least_s == 24
    assert found.hold_s.high <= found.least_s < found.hold_s.high + 1.0
    assert found.factor is None


def test_one_measured_hold_calibrates_it() -> None:
    """A hold measured on this very bead becomes the expected one, within 7 %, and its factor is the ratio."""
    found = answer(known="measured", measured_s="19")
    assert found.hold_s.expected == pytest.approx(19.0)
    assert found.hold_s.high == pytest.approx(19.0 * 1.07)
    assert found.factor == pytest.approx(19.0 / answer().hold_s.expected)


def test_the_factor_carries_over_from_another_bead() -> None:
    """A hold measured on a hotter bead gives the same answer as its factor typed in."""
    measured = answer(known="measured", measured_s="25", trial_heat="130", trial_bead="40")
    assert measured.factor is not None
    assert measured.hold_s == pytest.approx(answer(known="factor", shop_factor=f"{measured.factor:.9f}").hold_s)
    assert measured.factor != pytest.approx(answer(known="measured", measured_s="25").factor)


def test_a_tube_landed_on_a_tube_cools_sooner() -> None:
    """Three walls lead heat away faster than two, and a thicker wall faster than a thin one."""
    assert answer(shape="tee").hold_s.expected < answer().hold_s.expected
    assert answer(wall_mm="1.2").hold_s.expected < answer().hold_s.expected


def test_the_picture_crosses_the_limit_at_the_band() -> None:
    """In the picture the expected curve meets the limit's line where the expected hold stands on the time axis."""
    for found in (answer(), answer(known="measured", measured_s="19")):
        sheet = found.picture.course
        curve = next(each for each in sheet.curves if each.look == "marked")
        points = [tuple(map(float, pair.split(","))) for pair in curve.text.split()]
        crossing = next(x for x, y in points if y >= sheet.limits[0].at)
        low, high = (moment.at for moment in sheet.moments)
        assert low < crossing < high + 20.0


def test_what_speaks_against_the_figure_is_said() -> None:
    """A thick wall and a bead no longer than its pool are said to be outside the formula; the base case is not."""
    assert answer().doubts == ()
    assert len(answer(wall_mm="6", od_mm="").doubts) == 1
    assert len(answer(bead_mm="8").doubts) == 1


@pytest.mark.parametrize(
    ("asked", "field"),
    [
        ({"wall_mm": "0"}, "wall_mm"),
        ({"travel_mm_per_min": "0"}, "travel_mm_per_min"),
        ({"bead_mm": "400"}, "bead_mm"),
        ({"od_mm": "1"}, "od_mm"),
        ({"limit_c": "10"}, "limit_c"),
        ({"known": "measured", "measured_s": "90"}, "measured_s"),
        ({"known": "measured", "measured_s": "19", "trial_bead": "300"}, "trial_bead"),
        ({"known": "factor", "shop_factor": "9"}, "shop_factor"),
    ],
)
def test_what_makes_no_sense_is_named_at_its_field(asked: dict[str, str], field: str) -> None:
    """Each impossible input is refused at the field it was written in, the trial's own fields among them."""
    page = hold_time_page(asked)
    assert page.result is None
    assert [problem.field for problem in page.form.problems] == [field]


@pytest.mark.parametrize(
    ("shown", "doubt", "said"),
    [("240", "2", "within"), ("259", "2", "marginal"), ("259", "", "unknown"), ("260", "2", "outside")],
)
def test_whether_the_backside_wants_gas(shown: str, doubt: str, said: str) -> None:
    """Only a backside shown to stay under the figure, by more than its thermometer's doubt, goes without gas."""
    found = answer(backside_c=shown, backside_doubt=doubt).backside
    assert found is not None
    assert found.word == said
    assert answer().backside is None
