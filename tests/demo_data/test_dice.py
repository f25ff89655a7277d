"""Draws of the generator: the same for the same name, and inside what was asked."""

from demo_data.generator.dice import Dice


def draws(*names: object) -> list[float]:
    dice = Dice(1, *names)
    return [dice.between(0, 1) for _ in range(5)]


def test_the_same_name_draws_the_same() -> None:
    """A stream depends on the seed and its name alone, and every other name has another."""
    assert draws("pass", 7) == draws("pass", 7)
    assert draws("pass", 7) != draws("pass", 8)
    assert Dice(1, "a").hexes(8) != Dice(2, "a").hexes(8)


def test_draws_stay_inside_their_range() -> None:
    """Curves are held inside their ends, and whole numbers meet both."""
    dice = Dice(3, "range")
    assert all(9 <= dice.normal(10, 5, 9, 11) <= 11 for _ in range(200))
    assert all(3 <= dice.lognormal(8, 1, 3, 18) <= 18 for _ in range(200))
    assert {dice.whole(2, 4) for _ in range(200)} == {2, 3, 4}


def test_shares_are_kept() -> None:
    """A share of a tenth comes about once in ten, and what is left goes to the last value."""
    dice = Dice(4, "shares")
    picked = [dice.pick((0.1, 1), (0.2, 2), (0.0, 3)) for _ in range(5000)]
    assert 0.08 < picked.count(1) / 5000 < 0.12
    assert 0.66 < picked.count(3) / 5000 < 0.74


def test_the_middle_of_a_curve_is_where_it_was_put() -> None:
    """Half of a lognormal lies below its median; a bell's mean is its mean."""
    dice = Dice(5, "middle")
    values = sorted(dice.lognormal(8, 0.35, 0, 100) for _ in range(4000))
    assert 7.7 < values[2000] < 8.3
    assert 81 < sum(dice.normal(82, 9, 0, 200) for _ in range(4000)) / 4000 < 83
