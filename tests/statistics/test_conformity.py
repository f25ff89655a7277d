"""One reading against one limit."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from server.statistics.chance_within import chance_within
from server.statistics.conformity import Conformity, conform
from server.statistics.errors import NotANumber, UnusableInput, ZeroWidthLimit

WITHIN, MARGINAL, OUTSIDE, NOT_PROVED, UNKNOWN = Conformity
GUARD = 1.645 * 2.0
READINGS = st.floats(-100.0, 100.0)
DOUBTS = st.floats(0.001, 30.0)


@pytest.mark.parametrize(
    ("value", "low", "high", "uncertainty", "expected"),
    [
        pytest.param(40.0, None, 50.0, 2.0, WITHIN, id="well under"),
        pytest.param(-GUARD, None, 0.0, 2.0, WITHIN, id="exactly the guard away"),
        pytest.param(-GUARD + 1e-9, None, 0.0, 2.0, MARGINAL, id="a little closer"),
        pytest.param(50.0, None, 50.0, 2.0, MARGINAL, id="on the limit"),
        pytest.param(50.0, None, 50.0, 0.0, WITHIN, id="on the limit, counted without doubt"),
        pytest.param(50.1, None, 50.0, 2.0, NOT_PROVED, id="just over"),
        pytest.param(GUARD - 1e-9, None, 0.0, 2.0, NOT_PROVED, id="almost the guard over"),
        pytest.param(GUARD, None, 0.0, 2.0, OUTSIDE, id="the guard over"),
        pytest.param(50.1, None, 50.0, 0.0, OUTSIDE, id="just over, counted without doubt"),
        pytest.param(40.0, None, 50.0, None, UNKNOWN, id="no uncertainty on file"),
        pytest.param(50.0, None, 50.0, None, UNKNOWN, id="on the limit, no uncertainty on file"),
        pytest.param(60.0, None, 50.0, None, NOT_PROVED, id="over, no uncertainty on file"),
        pytest.param(33.0, 30.0, None, 0.5, WITHIN, id="well over a least value"),
        pytest.param(30.5, 30.0, None, 0.5, MARGINAL, id="close over a least value"),
        pytest.param(29.5, 30.0, None, 0.5, NOT_PROVED, id="close under a least value"),
        pytest.param(28.0, 30.0, None, 0.5, OUTSIDE, id="well under a least value"),
        pytest.param(50.0, 40.0, 60.0, 2.0, WITHIN, id="in the middle"),
        pytest.param(41.0, 40.0, 60.0, 2.0, MARGINAL, id="inside, near the lower end"),
        pytest.param(59.0, 40.0, 60.0, 2.0, MARGINAL, id="inside, near the upper end"),
        pytest.param(39.0, 40.0, 60.0, 2.0, NOT_PROVED, id="just under the lower end"),
        pytest.param(70.0, 40.0, 60.0, 2.0, OUTSIDE, id="well over the upper end"),
        pytest.param(5.0, 1.2, 8.8, 2.0, MARGINAL, id="between limits closer than four uncertainties"),
        pytest.param(5.0, 1.0, 9.0, 2.0, WITHIN, id="between limits four uncertainties apart"),
    ],
)
def test_word(
    value: float, low: float | None, high: float | None, uncertainty: float | None, expected: Conformity
) -> None:
    """A reading gets the word that its distance from the limit and the instrument's doubt call for."""
    assert conform(value, low, high, uncertainty) is expected


def test_words_and_proof() -> None:
    """Each conformity has one of four words, and says whether it is proved."""
    said = [(each.word, each.proved) for each in Conformity]
    assert said == [
        ("within", True),
        ("marginal", False),
        ("outside", True),
        ("outside", False),
        ("unknown", False),
    ]


@pytest.mark.parametrize("field", ["value", "low", "high", "standard_uncertainty"])
@pytest.mark.parametrize("number", [math.nan, math.inf, -math.inf])
def test_no_number(field: str, number: float) -> None:
    """A NaN or infinite number in any place is refused by the name of its place."""
    given_numbers = {"value": 1.0, "low": 0.0, "high": 2.0, "standard_uncertainty": 0.1, field: number}
    with pytest.raises(NotANumber, match=f"^{field} is (nan|inf|-inf); expected a finite number") as caught:
        conform(**given_numbers)
    assert caught.value.field == field


@pytest.mark.parametrize(("low", "high"), [(5.0, 5.0), (6.0, 5.0)])
def test_zero_width(low: float, high: float) -> None:
    """Limits that meet or cross are refused, with both named."""
    with pytest.raises(ZeroWidthLimit, match=rf"low is {low}; expected a number below high, {high}"):
        conform(5.0, low, high, 0.1)


def test_no_limit() -> None:
    """Without any limit nothing was asked, and the error says so."""
    with pytest.raises(UnusableInput, match="a limit on one side at least"):
        conform(5.0, None, None, 0.1)


def test_negative_uncertainty() -> None:
    """A standard uncertainty below zero is refused by name."""
    with pytest.raises(UnusableInput, match=r"standard_uncertainty is -0.1; expected 0 or more"):
        conform(5.0, None, 8.0, -0.1)


def test_another_certainty() -> None:
    """With 2 in place of 1.645 the guard is as much wider."""
    assert conform(46.5, None, 50.0, 2.0) is WITHIN
    assert conform(46.5, None, 50.0, 2.0, proof_factor=2.0) is MARGINAL


@given(value=READINGS, limit=READINGS, doubt=DOUBTS)
def test_mirror(value: float, limit: float, doubt: float) -> None:
    """A least value judges the mirrored reading as a greatest value judges the reading."""
    assert conform(value, None, limit, doubt) is conform(-value, -limit, None, doubt)


@given(value=READINGS, low=READINGS, high=READINGS, doubt=DOUBTS)
def test_word_agrees_with_chance(value: float, low: float, high: float, doubt: float) -> None:
    """What is within truly lies within with at least 94 %, what is proved outside with at most 5 %."""
    assume(low < high)
    word = conform(value, low, high, doubt)
    chance = chance_within(value, low, high, doubt)
    assert chance >= 0.94 if word is WITHIN else True
    assert chance <= 0.0501 if word is OUTSIDE else True


@given(value=READINGS, limit=READINGS, doubt=DOUBTS)
def test_more_doubt_never_proves_more(value: float, limit: float, doubt: float) -> None:
    """A coarser instrument never turns a reading from not proved into proved."""
    finer, coarser = conform(value, None, limit, doubt), conform(value, None, limit, 2.0 * doubt)
    assert finer.proved or not coarser.proved
