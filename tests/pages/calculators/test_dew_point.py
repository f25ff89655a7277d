"""The dew point calculator: each from the other, at any pressure, and a reading that cannot be true."""

import pytest

from server.pages.calculators.dew_point import DewResult, dew_point_page


def answer(**asked: str) -> DewResult:
    page = dew_point_page(asked)
    assert page.result is not None, [str(problem) for problem in page.form.problems]
    return page.result


def test_there_and_back() -> None:
    """The water content of a dew point has that dew point again."""
    water = answer(dew_point_c="-57.5").water_ppmv
    assert answer(given="water", water_ppmv=f"{water:.9f}").dew_c == pytest.approx(-57.5, abs=1e-6)


def test_the_unit_decides() -> None:
    """−50 °F is not −50 °C: it holds more than half as much water again."""
    fahrenheit, celsius = answer(dew_point_c="-50", dew_point_c_unit="°F"), answer(dew_point_c="-50 °C")
    assert fahrenheit.dew_c == pytest.approx(-45.56, abs=0.01)
    assert fahrenheit.dew_f == pytest.approx(-50.0)
    assert fahrenheit.water_ppmv > 1.5 * celsius.water_ppmv


def test_under_pressure_it_reads_warmer_than_at_the_torch() -> None:
    """Ten times the pressure is a tenth of the water at one dew point, and a colder dew point at the torch."""
    high, low = answer(dew_point_c="-50", pressure_kpa="10.1325 bar"), answer(dew_point_c="-50")
    assert high.water_ppmv == pytest.approx(low.water_ppmv / 10.0)
    assert high.at_torch_c == pytest.approx(answer(given="water", water_ppmv=f"{high.water_ppmv:.9f}").dew_c, abs=1e-6)
    assert low.at_torch_c is None


@pytest.mark.parametrize(
    ("reading", "doubt", "certificate", "possible"),
    [("0", "1", "2", False), ("1", "1", "2", True), ("0", "", "2", None), ("0", "1", "", None)],
)
def test_a_reading_below_the_certificate(reading: str, doubt: str, certificate: str, possible: bool | None) -> None:
    """Further below its gas than the analyser can tell is impossible; without doubt or certificate nobody can tell."""
    asked = {"reading_ppm": reading, "reading_doubt_ppm": doubt, "certificate_ppm": certificate}
    found = dew_point_page(asked).reading
    assert found is not None
    assert found.possible is possible


def test_without_a_reading_nothing_is_said_of_one() -> None:
    """The part about readings stays silent until one is written."""
    assert dew_point_page({}).reading is None


@pytest.mark.parametrize(
    ("asked", "field"),
    [
        ({"dew_point_c": "40"}, "dew_point_c"),
        ({"given": "water", "water_ppmv": "-4"}, "water_ppmv"),
        ({"pressure_kpa": "0"}, "pressure_kpa"),
        ({"reading_ppm": "0", "reading_doubt_ppm": "1", "certificate_ppm": "-5"}, "certificate_ppm"),
    ],
)
def test_what_makes_no_sense_is_named_at_its_field(asked: dict[str, str], field: str) -> None:
    """A dew point above freezing, water below nothing, no pressure: refused at the field."""
    page = dew_point_page(asked)
    assert page.result is None
    assert [problem.field for problem in page.form.problems] == [field]
