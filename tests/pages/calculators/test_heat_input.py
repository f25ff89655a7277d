"""The heat input calculator: two figures kept apart, steady and pulsed, with their doubt."""

import pytest

from server.pages.calculators.heat_input import HeatResult, heat_input_page

PULSED = {"arc": "pulsed", "peak_a": "80", "base_a": "20", "peak_v": "11", "base_v": "9", "duty": "40"}


def answer(**asked: str) -> HeatResult:
    page = heat_input_page(asked)
    assert page.result is not None, [str(problem) for problem in page.form.problems]
    return page.result


def test_arc_energy_and_heat_input_differ_by_k() -> None:
    """10 V and 60 A at 90 mm/min are 400 J/mm of arc energy and, with k of 60 %, 240 J/mm of heat input."""
    found = answer(amps="60", volts="10", travel_mm_per_min="90", thermal_efficiency="60")
    assert (found.arc_energy_j_per_mm, found.heat_input_j_per_mm) == pytest.approx((400.0, 240.0))
    share = answer(amps="60", volts="10", thermal_efficiency="0.6 dimensionless")
    assert share.heat_input_j_per_mm == found.heat_input_j_per_mm
    assert found.meter is None


def test_a_pulse_is_not_the_product_of_its_means() -> None:
    """For a pulse the power is the mean of the products; what slow meters show is named with how far it is off."""
    found = answer(**PULSED)
    assert found.power_w == pytest.approx(460.0)
    assert found.meter is not None
    assert found.meter.means_w == pytest.approx(431.2)
    assert found.meter.means_off_percent == pytest.approx(-6.26, abs=0.01)
    assert found.meter.rms_off_percent > 10.0


def test_length_and_time_stand_for_a_speed() -> None:
    """60 mm in 40 s is the same travel as 90 mm/min."""
    assert answer(by="bead", bead_mm="60", arc_s="40").arc_energy_j_per_mm == pytest.approx(
        answer(by="speed", travel_mm_per_min="90").arc_energy_j_per_mm
    )


def test_doubts_add_up_by_their_squares() -> None:
    """2 %, 2.5 %, 2.3 % and 2 % are 4.4 % together; nothing said is no doubt shown, not a doubt of zero."""
    doubts = {"volts_doubt": "2", "amps_doubt": "2.5", "length_doubt": "2.309", "time_doubt": "2"}
    assert answer(by="bead", **doubts).doubt == pytest.approx(0.0442, abs=1e-4)
    assert answer().doubt is None


@pytest.mark.parametrize(
    ("asked", "field", "found"),
    [
        ({"travel_mm_per_min": "0"}, "travel_mm_per_min", "0 mm/min"),
        ({"volts": "900"}, "volts", "900 V"),
        ({"by": "bead", "bead_mm": "0"}, "bead_mm", "0 mm"),
        ({**PULSED, "duty": "140"}, "duty", "140 %"),
        ({**PULSED, "peak_a": "0", "base_a": "0"}, "peak_a", "0 A"),
        ({"thermal_efficiency": "0"}, "thermal_efficiency", "0 %"),
        ({"volts_doubt": "200"}, "volts_doubt", "200 %"),
    ],
)
def test_what_makes_no_sense_is_named_at_its_field(asked: dict[str, str], field: str, found: str) -> None:
    """Zero travel, impossible volts, an on-time over 100 %: refused at the field, with nothing worked out."""
    page = heat_input_page(asked)
    assert page.result is None
    assert [(problem.field, problem.found) for problem in page.form.problems] == [(field, found)]


def test_the_picture_holds_the_energy_of_the_answer() -> None:
    """The filled area of the pulse picture, as a share of its box, is the mean power over the height of the axis."""
    found = answer(**PULSED)
    (area,) = found.picture.power.curves
    points = [tuple(map(float, pair.split(","))) for pair in area.text.split()]
    left, top, right, bottom = found.picture.power.box
    twice = sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(points, points[1:] + points[:1], strict=True))
    share = abs(twice) / 2.0 / ((right - left) * (bottom - top))
    assert share == pytest.approx(found.power_w / (1.25 * 880.0), rel=0.01)
