"""The checks beside some passes are cut out by their places, and are those that going through all of them finds."""

from itertools import product
from random import Random

from server.work.stretch import EVER, Stretch
from server.work.what_checks import Beside, Checks, InOrder, of_one


def some_checks(about: str, drawn: Random) -> list[Beside]:
    """Checks of one thing in order, several at the same moment."""
    at_ms = sorted(drawn.choices(range(20), k=drawn.randrange(9)))
    return [Beside(ms, "check", drawn.random() < 0.6, f"{about}{at:02d}", about) for at, ms in enumerate(at_ms)]


def plain(things: list[list[Beside]], first_ms: int, last_ms: int, within: Stretch) -> InOrder:
    """From the last check before the first pass, or at it, to the first after the last pass, by going through all."""

    def near(checks: list[Beside]) -> list[Beside]:
        before = [each for each in checks if each.at_ms <= first_ms][-1:]
        after = [each for each in checks if each.at_ms > last_ms][:1]
        return before + [each for each in checks if first_ms < each.at_ms <= last_ms] + after

    every = near(sorted((each for checks in things for each in near(checks)), key=lambda it: (it.at_ms, it.entry)))
    inside = [each for each in every if within.holds(each.at_ms)]
    return InOrder(inside, [each for each in inside if each.good], [each for each in inside if not each.good])


def differing() -> int:
    """How many of some hundreds of questions are answered otherwise than by going through all."""
    drawn, wrong = Random(7), 0
    stretches = EVER, Stretch(4, 9), Stretch(since_ms=12), Stretch(until_ms=6), Stretch(9, 4)
    for count, within, _ in product((0, 1, 2, 3), stretches, range(30)):
        things = [some_checks("abc"[number], drawn) for number in range(count)]
        first_ms, last_ms = sorted(drawn.choices(range(-2, 23), k=2))
        found = Checks(tuple(map(of_one, things))).around(first_ms, last_ms, within)
        wrong += InOrder(*map(list, found)) != plain(things, first_ms, last_ms, within)
    return wrong


def test_as_by_going_through_all():
    """Of no thing, one or several, at any time or within one: all checks, the good and the failed ones are those."""
    assert differing() == 0
