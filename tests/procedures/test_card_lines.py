"""The lines of a card and the doubt of what reads them."""

from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from server.facts.equipment import Instrument, Uncertainty
from server.procedures.card_lines import card_lines, decimal_text, doubt
from tests.procedures.ladder import ladder


def instrument(*reads: tuple[str, str, str, str]) -> Instrument:
    told = [{"quantity": q, "fixed": fixed, "share": share, "unit": unit} for q, fixed, share, unit in reads]
    return Instrument(id="X", title="x", reads=tuple(map(Uncertainty.model_validate, told)))


METER = instrument(("oxygen", "1", "0.05", "ppm"), ("peak_current", "0", "0.025", "A"), ("interpass", "2", "0", "°C"))


def test_the_doubt_is_written_as_it_is_reckoned() -> None:
    """A share alone, a fixed part alone, both under one root, or none on file."""
    assert doubt("oxygen", [METER]) == "sqrt(1, 5 %)"
    assert doubt("peak_current", [METER]) == "2.5 %"
    assert doubt("interpass", [METER]) == "2"
    assert doubt("torch_flow", [METER]) is None


def test_of_two_instruments_the_worse_one_counts() -> None:
    """A card that does not know which meter will be used carries the larger doubt."""
    coarse = instrument(("oxygen", "3", "0.02", "ppm"))
    assert doubt("oxygen", [METER, coarse]) == "sqrt(3, 5 %)"


def test_a_reading_in_another_unit_says_nothing_about_this_one() -> None:
    """An uncertainty in percent of oxygen is not taken for one in ppm."""
    assert doubt("oxygen", [instrument(("oxygen", "1", "0", "%"))]) is None


def test_a_computed_limit_has_no_instrument_of_its_own() -> None:
    """Heat input is reckoned, so no single instrument's doubt is its own."""
    assert doubt("heat_input", [instrument(("arc_energy", "1", "0", "J"))]) is None


def test_lines_stand_in_the_order_of_the_work() -> None:
    """What comes before the arc stands before what comes after it, whatever the order of the file."""
    lines = card_lines(ladder(), "rung on rail", [METER])
    moments = [line.moment for line in lines]
    assert moments == sorted(moments, key=["before the arc", "at the arc", "after the arc"].index)
    assert [line.name for line in lines][:2] == ["rod", "torch_flow"]


def test_a_line_carries_all_a_tablet_needs() -> None:
    """Sealed unit, decimal text, doubt, plan, source and what to do beyond it."""
    line = next(line for line in card_lines(ladder(), "rung on rail", [METER]) if line.name == "interpass")
    assert (line.low, line.high, line.unit, line.uncertainty) == (None, "60", "°C", "2")
    assert (line.when, line.n, line.source) == ("one in n", 3, "QR-1")
    assert line.beyond == "Wait until it has cooled."


def test_a_limit_for_another_kind_of_joint_is_left_out() -> None:
    """A repair card for one kind of joint does not carry the other kind's current."""
    limit = ladder().limits[4].model_copy(update={"joint_kinds": ("other",)})
    changed = ladder().model_copy(update={"limits": (limit,)})
    assert card_lines(changed, "rung on rail", []) == ()
    assert len(card_lines(changed, "other", [])) == 1


@given(st.floats(-1e6, 1e6))
def test_decimal_text_is_the_number_without_an_exponent(value: float) -> None:
    """However small, a limit is written out in digits and reads back as itself."""
    text = decimal_text(value)
    assert "e" not in text.lower()
    assert float(text) == value
    assert Decimal(text) == Decimal(repr(value))
