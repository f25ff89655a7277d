"""A PIN anybody would try first is told why: repeats, runs, lines of the keypad, days, the person's own number."""

import pytest

from server.work.worn_pins import worn_why


@pytest.mark.parametrize(
    ("pin", "why"),
    [
        ("777777", "repeats"),
        ("121212", "repeats"),
        ("123123", "repeats"),
        ("998899", "repeats"),
        ("123456", "run"),
        ("987654", "run"),
        ("135791", "run"),
        ("112233", "run"),
        ("147963", "keypad"),
        ("159357", "keypad"),
        ("246975", "run"),
        ("241203", "day"),
        ("122403", "day"),
        ("031224", "day"),
        ("199407", "month of a year"),
        ("071994", "month of a year"),
    ],
)
def test_worn_ones_are_told_why(pin: str, why: str):
    """Each kind is found and named."""
    assert why in (worn_why(pin) or "")


@pytest.mark.parametrize("pin", ["481516", "402951", "707011", "583920", "940017", "482913"])
def test_others_will_do(pin: str):
    """What is none of these is taken."""
    assert worn_why(pin) is None


def test_the_persons_own_number_will_not_do():
    """A PIN made of the figures of their id is refused for them, however it is filled up, and taken for others."""
    assert worn_why("004837", "W-4837") == worn_why("483700", "W-4837") == "it is made of the person's own number"
    assert worn_why("004837", "W-12") is None
    assert worn_why("004837", "ada") is None


def test_most_pins_are_left():
    """Nine in ten of all PINs will do, so that the list narrows nobody's choice to what can be guessed."""
    sample = range(0, 1_000_000, 97)
    left = sum(worn_why(f"{number:06}") is None for number in sample)
    assert 0.88 < left / len(sample) < 0.92
